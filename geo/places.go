package geo

import (
	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/rtree"
)

// Places are bounds in degrees that can be asked what meets them. They may be read
// by many goroutines.
type Places struct{ index *rtree.RTree }

// NewPlaces indexes bounds.
func NewPlaces(bounds []orb.Bound) *Places {
	items := make([]rtree.BulkItem, len(bounds))
	for i, b := range bounds {
		items[i] = rtree.BulkItem{Box: toBox(b), RecordID: i}
	}
	return &Places{rtree.BulkLoad(items)}
}

// Meet reports whether any of the places meets a bound.
func (p *Places) Meet(b orb.Bound) bool {
	met := false
	// The search ends at the first, by an error that is no fault.
	_ = p.index.RangeSearch(toBox(b), func(int) error {
		met = true
		return rtree.Stop
	})
	return met
}
