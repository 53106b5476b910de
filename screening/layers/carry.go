package layers

import (
	"maps"
	"slices"
	"strings"

	"waterward/geo/geojson"
	"waterward/screening/job"
)

// carrying looks for the properties that a layer is to carry into the outputs.
type carrying struct {
	left  map[string]bool // those that no feature has had
	names map[string]bool // of all properties there are
	any   bool            // there is a feature that can be read
}

func newCarrying(source *job.LayerSource) *carrying {
	c := &carrying{left: map[string]bool{}, names: map[string]bool{}}
	for _, name := range source.Carry {
		c.left[name] = true
	}
	return c
}

func (c *carrying) see(f *geojson.Feature) {
	if len(c.left) == 0 || !f.Readable() {
		return
	}
	c.any = true
	for _, m := range f.Properties() {
		if !c.names[m.Key] && len(c.names) < job.MostNames {
			c.names[strings.Clone(m.Key)] = true
		}
	}
	maps.DeleteFunc(c.left, func(name string, _ bool) bool { return f.Property(job.Spelled(f, name)) != nil })
}

// missing refuses properties that no feature has.
func (c *carrying) missing(layer string, source *job.LayerSource) error {
	var faults []error
	for _, name := range slices.Sorted(maps.Keys(c.left)) {
		if c.any {
			faults = append(faults, job.NoProperty(layer, job.Few(source.Files), name, "which carry names", slices.Sorted(maps.Keys(c.names))))
		}
	}
	return job.JoinErrors(faults)
}

// carried are the values of the properties that the layer carries, as they are written.
func (l *Layer) carried(f *geojson.Feature) []string {
	var values []string
	for _, name := range l.Source.Carry {
		values = append(values, strings.Clone(f.Text(job.Spelled(f, name))))
	}
	return values
}
