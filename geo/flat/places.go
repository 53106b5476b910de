package flat

import "github.com/paulmach/orb"

// Places are bounds in degrees that can be asked what meets them. They may be read
// by many goroutines.
type Places struct{ index *Index }

// NewPlaces indexes bounds.
func NewPlaces(bounds []orb.Bound) *Places {
	return &Places{NewIndex(len(bounds), func(i int) Box { return BoxOf(bounds[i]) })}
}

// Meet reports whether any of the places meets a bound.
func (p *Places) Meet(b orb.Bound) bool {
	return !p.index.Search(BoxOf(b), func(int) bool { return false }) // the first will do
}

// Meeting returns which of the places, by number, meet a bound, in no order.
func (p *Places) Meeting(b orb.Bound) []int {
	var out []int
	p.index.Search(BoxOf(b), func(i int) bool {
		out = append(out, i)
		return true
	})
	return out
}
