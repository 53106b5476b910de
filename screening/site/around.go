package site

import (
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"

	"waterward/screening/layers"
)

// Around is a line of a layer near the structure, in the plane of its site.
type Around struct {
	Item layers.Attributes
	Line []orb.Point
}

// Around are the lines of a layer round the structure and where it was measured to, as far
// as limits are drawn.
func (s *Site) Around(l *layers.Layer) []Around {
	bound := s.Footprint.Bound
	for _, d := range s.witnesses {
		if d.layer == l.Name && d.measure != longestOverlap {
			bound = bound.Extend(d.line[len(d.line)-1])
		}
	}
	var made []Around
	for _, one := range s.Near(l.Geo).ByItem() {
		for _, chain := range one.Chains() {
			for _, line := range clip.LineString(bound.Pad(setbackMargin), chain) {
				made = append(made, Around{l.Items[one.Item], line})
			}
		}
	}
	return made
}
