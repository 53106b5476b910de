package layers

import (
	"fmt"

	"github.com/paulmach/orb"

	"waterward/geo/area"
	"waterward/geo/geojson"
	"waterward/screening/job"
)

// repair is an area of a layer that was not valid and has been rebuilt.
type repair struct {
	File  string
	Label string // of the feature
	Bound orb.Bound
	Text  string // what was wrong, where, and what came of it
}

// valid returns a valid area in place of the one drawn: itself, or rebuilt. It
// fails if it is not valid and must stay as drawn, or cannot be rebuilt.
func (l *Layer) valid(f *geojson.Feature, file string, shape orb.MultiPolygon) (orb.MultiPolygon, error) {
	wrong := area.Check(shape)
	if wrong == nil || l.asDrawn {
		return shape, wrong
	}
	rebuilt, err := area.Repair(shape)
	if err != nil {
		return nil, fmt.Errorf("%w; %w", wrong, err)
	}
	label := NameOf(f.Number, f.ID)
	text := fmt.Sprintf("%s: %s: %s; %s", file, label, wrong, RebuiltText(shape, rebuilt))
	l.Repairs = append(l.Repairs, repair{file, label, rebuilt.Bound(), text})
	return rebuilt, nil
}

func RebuiltText(drawn, rebuilt orb.MultiPolygon) string {
	return fmt.Sprintf("rebuilt by the even-odd rule: %s sq ft as drawn, %s sq ft as used",
		job.Fixed(area.Drawn(drawn)/(job.Foot*job.Foot), 1), job.Fixed(area.Drawn(rebuilt)/(job.Foot*job.Foot), 1))
}
