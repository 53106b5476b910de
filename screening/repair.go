package screening

import (
	"fmt"

	"github.com/paulmach/orb"

	"waterward/geo/area"
	"waterward/geo/geojson"
)

// repair is an area of a layer that was not valid and has been rebuilt.
type repair struct {
	file  string
	label string // of the feature
	bound orb.Bound
	text  string // what was wrong, where, and what came of it
}

// valid returns a valid area in place of the one drawn: itself, or rebuilt. It
// fails if it is not valid and must stay as drawn, or cannot be rebuilt.
func (l *layer) valid(f *geojson.Feature, file string, shape orb.MultiPolygon) (orb.MultiPolygon, error) {
	wrong := area.Check(shape)
	if wrong == nil || l.asDrawn {
		return shape, wrong
	}
	rebuilt, err := area.Repair(shape)
	if err != nil {
		return nil, fmt.Errorf("%w; %w", wrong, err)
	}
	label := place(f.Number, f.ID)
	text := fmt.Sprintf("%s: %s: %s; %s", file, label, wrong, rebuiltText(shape, rebuilt))
	l.repairs = append(l.repairs, repair{file, label, rebuilt.Bound(), text})
	return rebuilt, nil
}

func rebuiltText(drawn, rebuilt orb.MultiPolygon) string {
	return fmt.Sprintf("rebuilt by the even-odd rule: %s sq ft as drawn, %s sq ft as used",
		formatFixed(area.Drawn(drawn)/(foot*foot), 1), formatFixed(area.Drawn(rebuilt)/(foot*foot), 1))
}
