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

// slowlyFits samples every line from end to end, and asks all shore for each foot.
func (h *shore) slowlyFits(open orb.MultiPolygon, width float64) fit {
	var f fit
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
	base, stations, holds := geo.NewBaseline(h.line), geo.NewStationing(h.line), area.NewCover(open).Holds
	step := math.Min(fitStep, base.Length()/4)
	covered := make([]bool, int(math.Ceil(base.Length()/step))+1)
	for _, share := range offsets() {
		for _, line := range geo.LimitLines(h.Bank.Lines, least+share*(most-least), geo.WaterSide, h.extent) {
			along := geo.NewBaseline(line)
			first, last, station := math.NaN(), math.NaN(), math.NaN()
			end := func() {
				if last-first > f.runLength()+fitStep {
					f.run = along.Between(first, last)
				}
				first, station = math.NaN(), math.NaN()
			}
			for at := 0.0; at <= along.Length(); at += step {
				p := along.At(at)
				foot := h.Bank.Lines.Nearest(p)
				fits := true
				for _, off := range []float64{0, asked, -asked} {
					share := off / foot.Distance
					fits = fits && holds(orb.Point{p[0] + share*(p[0]-foot.At[0]), p[1] + share*(p[1]-foot.At[1])})
				}
				if !fits {
					end()
					continue
				}
				if last = at; math.IsNaN(first) {
					first = at
				}
				on, ok := stations.Of(foot.At)
				if !ok {
					on = math.NaN()
				} else {
					coverFeet(covered, station, on, step)
				}
				station = on
			}
			end()
		}
	}
	f.open, f.longest = stretches(covered, step, base.Length())
	return f
}

// TestFitsAsWhenEveryPlaceIsAsked: before every front of the demo, under every path, for a
// narrow structure and a wide one.
func TestFitsAsWhenEveryPlaceIsAsked(t *testing.T) {
	e, fronts := demoFronts(t)
	fitting := 0
	for i := range fronts {
		if fronts[i].Parcel < 0 {
			continue
		}
		at := e.at(&fronts[i])
		require.NoError(t, at.err)
		for _, p := range at.zone.paths {
			for _, width := range []float64{1 * job.Foot, 6 * job.Foot} {
				want, got := at.shore.slowlyFits(p.open, width), at.shore.fits(p.open, width)
				const good = 1e-6 // of a metre: what was added up in another order
				require.InDelta(t, want.open, got.open, good)
				require.InDelta(t, want.longest, got.longest, good)
				require.InDelta(t, want.deepest, got.deepest, good)
				require.InDelta(t, want.runLength(), got.runLength(), good)
				if got.run != nil {
					fitting++
				}
			}
		}
	}
	require.Greater(t, fitting, 100)
}

// What must touch an area must do so somewhere; what must lie outside, everywhere.
func TestWhatSomePlaceMustMeet(t *testing.T) {
	touches := rules.Demand{Input: rules.Input{Ref: rules.Ref{Measure: "in_area:quiet"}, Measure: rules.Measure{Quantity: rules.Names}}, Comparison: rules.Is, Words: []string{"inside"}}
	require.True(t, ofSome(&touches))
	touches.Words = []string{"outside"}
	require.False(t, ofSome(&touches))
}
