package field

import (
	"fmt"
	"math"
)

// secondDecimals are those of seconds: 0.00001" is 0.001 ft.
const secondDecimals = 5

// Latitude is a latitude in degrees, minutes and seconds: "30 00 01.50000 N".
func Latitude(degrees float64) string { return sexagesimal(degrees, 2, "N", "S") }

// Longitude is a longitude in degrees, minutes and seconds: "074 36 00.00000 W".
func Longitude(degrees float64) string { return sexagesimal(degrees, 3, "E", "W") }

func sexagesimal(degrees float64, digits int, positive, negative string) string {
	side := positive
	if degrees < 0 {
		side = negative
	}
	unit := int64(math.Pow10(secondDecimals))
	n := int64(math.Round(math.Abs(degrees) * 3600 * float64(unit))) // whole, so that 60 seconds are a minute
	d, m, s := n/(3600*unit), n/(60*unit)%60, n%(60*unit)
	return fmt.Sprintf("%0*d %02d %02d.%0*d %s", digits, d, m, s/unit, secondDecimals, s%unit, side)
}
