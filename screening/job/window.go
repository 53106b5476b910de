package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
)

// ParseWindow reads a window in degrees: west, south, east, north.
func ParseWindow(text string) (orb.Bound, error) {
	wrong := func(why string) (orb.Bound, error) {
		return orb.Bound{}, fmt.Errorf("%q is no window: %s; write west, south, east and north in degrees, such as -76.52,34.70,-76.48,34.74", text, why)
	}
	sides := strings.Split(text, ",")
	if len(sides) != 4 {
		return wrong("it has four sides")
	}
	var at [4]float64
	for i, side := range sides {
		value, err := strconv.ParseFloat(strings.TrimSpace(side), 64)
		if err != nil || math.IsNaN(value) {
			return wrong(fmt.Sprintf("%q is no number", strings.TrimSpace(side)))
		}
		if most := []float64{180, 90}[i%2]; math.Abs(value) > most {
			return wrong(fmt.Sprintf("%s are no degrees", strings.TrimSpace(side)))
		}
		at[i] = value
	}
	switch {
	case at[0] >= at[2]:
		return wrong("its west lies not west of its east")
	case at[1] >= at[3]:
		return wrong("its south lies not south of its north")
	}
	return orb.Bound{Min: orb.Point{at[0], at[1]}, Max: orb.Point{at[2], at[3]}}, nil
}
