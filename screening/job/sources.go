package job

import (
	"fmt"
	"iter"
	"maps"
	"slices"
	"strings"
)

func (s *LayerSource) names(into map[string]bool) {
	into[s.Surveyed] = true
	for _, name := range s.Files {
		into[name] = true
	}
}

// Source returns the layer of that name, nil if the job does not give it.
func (s *LayerSources) Source(name string) *LayerSource {
	if area, ok := strings.CutPrefix(name, "areas."); ok {
		if source, ok := s.Areas[area]; ok {
			return &source
		}
		return nil
	}
	for known, source := range s.Named() {
		if known == name {
			return source
		}
	}
	return nil
}

// SetCRS says in which system the layer, or the proposals, of that name are.
func (j *Job) SetCRS(name string, crs System) error {
	name = strings.ReplaceAll(name, "-", "_")
	if name == "proposals" {
		for i := range j.Proposals {
			j.Proposals[i].CRS = crs
		}
		return nil
	}
	source := j.Layers.Source(name)
	if source == nil {
		return fmt.Errorf("the job gives no layer %s", name)
	}
	source.CRS = crs
	if area, ok := strings.CutPrefix(name, "areas."); ok {
		j.Layers.Areas[area] = *source
	}
	return nil
}

// Each yields every layer given, named areas as areas.NAME.
func (s *LayerSources) Each() iter.Seq2[string, *LayerSource] {
	return func(yield func(string, *LayerSource) bool) {
		for name, source := range s.Named() {
			if source != nil && !yield(name, source) {
				return
			}
		}
		for _, name := range slices.Sorted(maps.Keys(s.Areas)) {
			source := s.Areas[name]
			if !yield("areas."+name, &source) {
				return
			}
			s.Areas[name] = source
		}
	}
}

// FileNames returns every name of a file the job gives, for those who open files.
func (j *Job) FileNames() map[string]bool {
	out := map[string]bool{}
	j.Proposals.names(out)
	for _, b := range j.Books {
		out[b] = true
	}
	for _, s := range j.Layers.Named() {
		if s != nil {
			s.names(out)
		}
	}
	for _, s := range j.Layers.Areas {
		s.names(out)
	}
	return out
}

// Named yields the layers of the closed list in a fixed order, nil if not given.
func (s *LayerSources) Named() iter.Seq2[string, *LayerSource] {
	return func(yield func(string, *LayerSource) bool) {
		for _, l := range []struct {
			name   string
			source *LayerSource
		}{
			{"high_water", s.HighWater}, {"low_water", s.LowWater}, {"shoreline", s.Shoreline},
			{"seagrass", s.Seagrass}, {"wetlands", s.Wetlands}, {"channels", s.Channels}, {"riparian", s.Riparian}, {"parcels", s.Parcels},
		} {
			if !yield(l.name, l.source) {
				return
			}
		}
	}
}
