package geo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// TestLongestRunLine: from end to end of the longest run, through what of its openings is too
// narrow. Sills 2 ft wide along the x axis; worked by hand, in feet.
func TestLongestRunLine(t *testing.T) {
	row := sills(t, 2, []orb.Point{{0, 0}, {40, 0}}, []orb.Point{{46, 0}, {86, 0}}, []orb.Point{{89, 0}, {129, 0}})
	// Three sills run away from a middle one, by openings of 5, 6 and 8 ft: 40 + 5 to one
	// side, 6 + 10 to the other, 8 + 5 off it.
	star := sills(t, 2, []orb.Point{{0, 0}, {60, 0}}, []orb.Point{{-45, 0}, {-5, 0}},
		[]orb.Point{{66, 0}, {76, 0}}, []orb.Point{{30, 9}, {30, 14}})
	for _, c := range []struct {
		name     string
		fp       *Footprint
		opening  float64
		stations []float64 // x along it
	}{
		{"one sill", sills(t, 2, []orb.Point{{0, 0}, {95, 0}}), 5, []float64{0, 95}},
		{"one across, farther than wide", boxFeet(0, 0, 46, 6), 5, []float64{0, 46}},
		{"two of three", row, 5, []float64{46, 86, 89, 129}},
		{"all of them", row, 7, []float64{0, 40, 46, 86, 89, 129}},
		{"each alone, the first of three", row, 3, []float64{0, 40}},
		{"the longest way of a branched one", star, 9, []float64{-45, -5, 0, 60, 66, 76}},
	} {
		line := c.fp.LongestRunLine(c.opening*ft, 0)
		if line[0][0] > line[len(line)-1][0] { // it may begin at either end
			for i, k := 0, len(line)-1; i < k; i, k = i+1, k-1 {
				line[i], line[k] = line[k], line[i]
			}
		}
		require.Len(t, line, len(c.stations), c.name)
		for i, p := range line {
			requireFeet(t, c.stations[i], p[0], c.name)
		}
	}
	// Of three drawings, each its own run, that of the one asked of.
	of, err := NewFootprintOf(Part{reefAt(0), 0, 4 * ft}, Part{reefAt(20), 0, 4 * ft}, Part{reefAt(40), 0, 4 * ft})
	require.NoError(t, err)
	for k := range 3 {
		line := of.LongestRunLine(5*ft, k)
		requireFeet(t, 20*float64(k-1), (line[0][0]+line[1][0])/2, "of three drawings") // the middle drawing lies in the middle of the plane
	}
	// Discs 4 ft across: from the far side of one to that of the other.
	reef, err := NewFootprint(orb.MultiPoint{site.Inverse(orb.Point{0, 0}), site.Inverse(orb.Point{8 * ft, 0})}, 0, 4*ft)
	require.NoError(t, err)
	require.Len(t, reef.LongestRunLine(5*ft, 0), 4)
	require.Len(t, reef.LongestRunLine(4*ft-0.001, 0), 2)
}

// reefAt is a place so many feet along the x axis.
func reefAt(x float64) orb.Point { return site.Inverse(orb.Point{x * ft, 0}) }
