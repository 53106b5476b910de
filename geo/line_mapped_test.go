package geo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// Worked by hand: one feature of two lines, of which the second was drawn against the first
// and shares its end with a second feature; edges are shorter than what is cut.
func TestMappedLinesOfAStrand(t *testing.T) {
	at := func(i float64) orb.Point { return orb.Point{-74 + i/10_000, 30} }
	var b LayerBuilder
	b.AddLine(orb.LineString{at(0), at(1), at(2)}, orb.LineString{at(5), at(4), at(3), at(2)})
	b.AddLine(orb.LineString{at(5), at(6)})
	l := b.Build(true)
	require.Equal(t, 1, l.Strands())
	require.Equal(t, []Mapped{
		{Item: 0, Part: 0, From: 0, To: 2},
		{Item: 0, Part: 1, From: 2, To: 5, Reversed: true},
		{Item: 1, Part: 0, From: 5, To: 6},
	}, l.Mapped(0))
}
