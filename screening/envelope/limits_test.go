package envelope

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo"
	"waterward/screening/front"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/sketchtest"
)

// TestEnvelopeEdgesLieOnLimits samples the outline of every envelope: each place of it
// lies within 0.05 ft of where some measure of the place is at a limit, at a line
// between neighbours, or at the edge of what is looked at.
func TestEnvelopeEdgesLieOnLimits(t *testing.T) {
	e, outcomes := demoOutcomes(t)
	const most = 0.05 * job.Foot
	sampled := 0
	for _, at := range outcomes {
		h := at.shore
		walls := geo.NewLines(h.walls(e)...)
		for _, p := range e.everyPool(at) {
			for _, polygon := range p.shape(open) {
				for _, ring := range polygon {
					base := geo.NewBaseline(ring)
					for s := 0.0; s < base.Length(); s += 1.7 {
						sampled++
						at := base.At(s)
						require.LessOrEqual(t, nearestLimit(e, h, walls, at), most, "%v of %s", at, p.of[0].path.ID)
					}
				}
			}
		}
	}
	require.Greater(t, sampled, 10_000)
}

// nearestLimit is how far, in metres, a place lies from where any measure of it is at a
// limit of a book.
func nearestLimit(e *Search, h *shore, walls *geo.Lines, at orb.Point) float64 {
	best := walls.Nearest(at).Distance
	for _, corner := range h.corners() {
		best = math.Min(best, geo.NewLines(corner).Nearest(at).Distance)
	}
	take := func(d float64) { best = math.Min(best, math.Abs(d)) }
	high, _ := h.Bank.Lines.Signed(at)
	take(high)
	take(high - h.reach)
	for _, share := range append([]float64{0.5}, e.around.shares...) {
		for _, w := range h.waters {
			take(high - share*w.width.Number)
		}
	}
	for _, limit := range e.around.limits {
		for _, source := range h.sources(limit.of, h.Layers.Layer(limit.of.Layer)) {
			take(source.Lines.Nearest(at).Distance - source.Extra - limit.distance)
		}
	}
	for _, l := range h.Layers.All() {
		if lines := h.around[l.Geo]; lines != nil && e.around.layers[l.Name] && l.Name != "high_water" && l.Name != "low_water" {
			take(lines.Nearest(at).Distance)
			if l.Surveyed != nil {
				take(h.around[l.Surveyed].Nearest(at).Distance)
			}
		}
	}
	return best
}

func demoFronts(t testing.TB) (*Search, []front.Front) {
	j := sketchtest.DemoJob(t)
	require.NoError(t, j.UsePresets(sketchtest.Folder(sketchtest.DemoDir)))
	log := &inputs.Log{}
	shelf, err := inputs.LoadBooks(sketchtest.Folder(sketchtest.DemoDir), j, log)
	require.NoError(t, err)
	mapped, err := (&layers.Loader{Files: sketchtest.Folder(sketchtest.DemoDir), Log: log}).Load(j)
	require.NoError(t, err)
	e, err := New(mapped, shelf.Current, j.Envelope.Settled(), j.SearchRadius.Metres, false)
	require.NoError(t, err)
	fronts, err := front.Find(t.Context(), mapped, e.Radius, e.Settings.Tolerance.Metres, 1)
	require.NoError(t, err)
	return e, fronts
}

// demoOutcomes are the fronts of the demo's parcels, with the water before each parted for
// every path.
func demoOutcomes(t testing.TB) (*Search, []*Outcome) {
	e, fronts := demoFronts(t)
	var made []*Outcome
	for i := range fronts {
		if fronts[i].Parcel < 0 {
			continue
		}
		at := &Outcome{Front: &fronts[i]}
		var err error
		at.shore, err = e.newShore(at.Front, e.structure)
		require.NoError(t, err)
		require.NoError(t, e.part(at, e.everyPath()))
		made = append(made, at)
	}
	return e, made
}

// everyPath are the paths that the structure could take, of every book.
func (e *Search) everyPath() []*sited {
	var all []*sited
	for i, p := range e.easiest {
		if p != nil {
			all = append(append(all, p), e.later[i]...)
		}
	}
	return all
}

// everyPool is the water of each of them.
func (e *Search) everyPool(at *Outcome) []*pool {
	var made []*pool
	for _, p := range e.everyPath() {
		made = append(made, e.pool(at, question{p}))
	}
	return made
}
