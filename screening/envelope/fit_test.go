package envelope

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo"
	"waterward/geo/area"
	"waterward/rules"
	"waterward/screening/job"
)

// slowlyFits asks all shore at every foot of every line, from end to end.
func (h *shore) slowlyFits(open orb.MultiPolygon, width float64) *fit {
	f := &fit{}
	if len(open) == 0 {
		return f
	}
	half, asked := width/2+fitInset, width/2+0.9*fitInset
	least, deepest := geo.Span(open, h.Bank.Lines)
	f.deepest = math.Max(0, deepest)
	least, most := least+half, f.deepest-half
	if most < least {
		return f
	}
	holds, feet := area.NewCover(open).Holds, newFrontFeet(h)
	var runs [][]orb.Point
	for _, share := range offsets() {
		for _, line := range geo.LimitLines(h.Bank.Lines, least+share*(most-least), geo.WaterSide, h.extent) {
			along := geo.NewBaseline(line)
			across := func(at float64) (orb.Point, bool) {
				p := along.At(at)
				foot := h.Bank.Lines.Nearest(p)
				fits := true
				for _, off := range []float64{0, asked, -asked} {
					share := off / foot.Distance
					fits = fits && holds(orb.Point{p[0] + share*(p[0]-foot.At[0]), p[1] + share*(p[1]-foot.At[1])})
				}
				return foot.At, fits
			}
			nothing := func(float64) float64 { return 0 }
			for _, piece := range pieces(along.Length(), across, nothing, feet.add) {
				runs = append(runs, along.Between(piece[0], piece[1]))
			}
		}
	}
	f.runs = longestRuns(runs, runsKept)
	f.open, f.longest = feet.sums()
	return f
}

// TestFitsAsWhenEveryPlaceIsAsked: before every front of the demo, under every path, for a
// narrow structure and a wide one.
func TestFitsAsWhenEveryPlaceIsAsked(t *testing.T) {
	e, outcomes := demoOutcomes(t)
	fitting := 0
	for _, at := range outcomes {
		for _, p := range e.everyPool(at) {
			water := p.shape(open)
			for _, width := range []float64{1 * job.Foot, 6 * job.Foot} {
				want, got := at.shore.slowlyFits(water, width), at.shore.fitsIn(water, width)
				const good = 4 * fitEnd // both ends of what both find
				require.InDelta(t, want.open, got.open, good)
				require.InDelta(t, want.longest, got.longest, good)
				require.InDelta(t, want.deepest, got.deepest, 1e-9)
				require.InDelta(t, want.length(), got.length(), fitStep+good) // of runs as long as that, the one with most margin
				if got.runs != nil {
					fitting++
				}
			}
		}
	}
	require.Greater(t, fitting, 100)
}

// By hand: what fits is between the stations 3.337 and 50, and from 60.5 to the end at 100.
func TestPiecesEndWhereTheyDo(t *testing.T) {
	const start, end, again, length = 3.337, 50.0, 60.5, 100.0
	for _, skipping := range []float64{0, 7} {
		var begun int
		got := pieces(length, func(at float64) (orb.Point, bool) {
			return orb.Point{at, 0}, at >= start && at <= end || at >= again
		}, func(at float64) float64 {
			if at > end && at < again {
				return math.Min(skipping, again-at)
			}
			return 0
		}, func(_ orb.Point, begins bool) {
			if begins {
				begun++
			}
		})
		require.Len(t, got, 2)
		require.Equal(t, 2, begun)
		require.InDelta(t, start, got[0][0], fitEnd)
		require.InDelta(t, end, got[0][1], fitEnd)
		require.InDelta(t, again, got[1][0], fitEnd)
		require.InDelta(t, length, got[1][1], 0)
		for _, p := range got {
			require.True(t, p[0] >= start && p[1] <= end || p[0] >= again, "an end is inside what fits")
		}
	}
}

// What must touch an area must do so somewhere; what must lie outside, everywhere.
func TestWhatSomePlaceMustMeet(t *testing.T) {
	touches := rules.Demand{Input: rules.Input{Ref: rules.Ref{Measure: "in_area:quiet"}, Measure: rules.Measure{Quantity: rules.Names}}, Comparison: rules.Is, Words: []string{"inside"}}
	require.True(t, ofSome(&touches))
	touches.Words = []string{"outside"}
	require.False(t, ofSome(&touches))
}
