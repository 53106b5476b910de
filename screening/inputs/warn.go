package inputs

import (
	"fmt"
	"maps"
	"slices"

	"waterward/geo/geojson"
	"waterward/screening/job"
)

// pageSizes are the greatest numbers of features that servers send at once: a
// layer of exactly so many is likely the first page of a longer one.
var pageSizes = []int{500, 1000, 2000, 3000, 5000, 10000}

// Coarse is the grain of positions, in metres, from which it counts and is warned of:
// that of 6 decimals of a degree; half a unit of the seventh is 0.018 ft.
const Coarse = 0.05

// sought are the properties of a file in which the job looks for what is read, as
// long as no feature has had them.
type sought struct {
	left   map[string]string // the file's, by what is read
	looked bool              // at a feature
}

// NewSought starts with what the job says of a layer; key is the property that names
// a parcel.
func NewSought(fields job.Fields, key string) *sought {
	s := &sought{left: map[string]string{}}
	for name, field := range fields {
		if field.From != "" {
			s.left[name] = field.From
		}
	}
	if key != "" {
		s.left["parcel_id"] = key
	}
	return s
}

func (s *sought) See(f *geojson.Feature) {
	s.looked = s.looked || f.Readable()
	for name, from := range s.left {
		if f.Property(job.Spelled(f, from)) != nil {
			delete(s.left, name)
		}
	}
}

// Warnings say what no feature of a file has.
func (s *sought) Warnings(role, file string) []string {
	var out []string
	for _, name := range slices.Sorted(maps.Keys(s.left)) {
		if s.looked {
			out = append(out, fmt.Sprintf("%s: no feature of %s has the property %s, in which %s is looked for: correct the name, or the file", role, file, s.left[name], name))
		}
	}
	return out
}
