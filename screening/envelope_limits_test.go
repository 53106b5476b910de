package screening

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo"
)

// TestEnvelopeEdgesLieOnLimits samples the outline of every envelope: each place of it
// lies within 0.05 ft of where some measure of the place is at a limit, at a line
// between neighbours, or at the edge of what is looked at.
func TestEnvelopeEdgesLieOnLimits(t *testing.T) {
	e, fronts := demoFronts(t)
	const most = 0.05 * foot
	sampled := 0
	for i := range fronts {
		if fronts[i].parcel < 0 {
			continue
		}
		at := e.at(&fronts[i])
		require.NoError(t, at.err)
		h := at.shore
		walls := geo.NewLines(h.walls(e)...)
		for k, p := range at.zone.paths {
			for _, polygon := range p.open {
				for _, ring := range polygon {
					base := geo.NewBaseline(ring)
					for s := 0.0; s < base.Length(); s += 1.7 {
						sampled++
						at := base.At(s)
						require.LessOrEqual(t, nearestLimit(e, h, walls, at), most, "%v of %s/%s", at, p.book.Name, e.paths[k].path.ID)
					}
				}
			}
		}
	}
	require.Greater(t, sampled, 10_000)
}

// nearestLimit is how far, in metres, a place lies from where any measure of it is at a
// limit of a book.
func nearestLimit(e *envelope, h *shore, walls *geo.Lines, at orb.Point) float64 {
	best := walls.Nearest(at).Distance
	for _, corner := range h.corners() {
		best = math.Min(best, geo.NewLines(corner).Nearest(at).Distance)
	}
	take := func(d float64) { best = math.Min(best, math.Abs(d)) }
	high, _ := h.bank.Lines.Signed(at)
	take(high)
	take(high - h.reach)
	for _, share := range append([]float64{0.5}, e.shares...) {
		for _, w := range h.waters {
			take(high - share*w.width.Number)
		}
	}
	for _, limit := range e.limits {
		for _, source := range h.sources(limit.of, h.layers.layer(limit.of.layer)) {
			take(source.lines.Nearest(at).Distance - source.extra - limit.distance)
		}
	}
	for _, l := range h.layers.all() {
		if lines := h.around[l.geo]; lines != nil && e.asks[l.name] && l.name != "high_water" && l.name != "low_water" {
			take(lines.Nearest(at).Distance)
			if l.surveyed != nil {
				take(h.around[l.surveyed].Nearest(at).Distance)
			}
		}
	}
	return best
}

func demoFronts(t testing.TB) (*envelope, []front) {
	job := demoJob(t)
	require.NoError(t, job.checkEnvelope())
	log := &inputLog{}
	shelf, err := loadBooks(folder(demoDir), job, log)
	require.NoError(t, err)
	layers, err := (&loader{files: folder(demoDir), log: log}).layers(job)
	require.NoError(t, err)
	e, err := newEnvelope(layers, shelf.current, job.Envelope.settled(), job.SearchRadius.Metres)
	require.NoError(t, err)
	fronts, err := findFronts(t.Context(), layers, e.radius, e.settings.Tolerance.Metres, 1)
	require.NoError(t, err)
	return e, fronts
}
