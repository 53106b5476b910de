package inspect

import (
	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// Compare adds to the warnings of files what they say set against one another: which
// lies nowhere near any of the others, and in which system one that is no degrees
// would meet them.
func Compare(found []*Inspection) {
	for i, in := range found {
		others, met := layers.EmptyBound, false
		for j, other := range found {
			if i == j || other.Extent == nil {
				continue
			}
			others = others.Union(other.bound())
			met = met || in.Extent != nil && in.bound().Intersects(crs.Window(other.bound(), job.DefaultRadius))
		}
		if in.Extent != nil && !others.IsEmpty() && !met {
			in.Warnings = append(in.Warnings, "it lies nowhere near any other of these files: is it another place, or another coordinate system?")
		}
		if !in.stray.IsEmpty() {
			in.Warnings = append(in.Warnings, in.strayText(others))
		}
	}
}

// strayText says what to do with positions that are no degrees.
func (in *Inspection) strayText(near orb.Bound) string {
	text := layers.StrayPlace(in.stray) + "; "
	if fits := layers.Fitting(in.stray, near); fits != "" {
		text += "it would meet the other files as " + fits + "; "
	}
	return text + "find out and give it with --crs EPSG:n"
}

func (in *Inspection) bound() orb.Bound {
	return orb.Bound{Min: orb.Point{in.Extent[0], in.Extent[1]}, Max: orb.Point{in.Extent[2], in.Extent[3]}}
}
