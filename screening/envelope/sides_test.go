package envelope

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/geo/flat"
	"waterward/rules"
	"waterward/screening/front"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/sketchtest"
)

// Before a lot of which both, one or no side lines are given, 10 ft from its west side and
// 240 from there. Worked by hand.
func TestPlacesBesideSideLines(t *testing.T) {
	for _, given := range []string{"we", "w", ""} {
		files, mapped := sketchtest.SidesOf(given)
		e, h := shoreOf(t, files, mapped)
		limit := e.easiest[0].criteria[0]
		for y, holds := range map[float64]bool{10: false, 240: true} {
			r := rules.Judge(e.easiest[0].path, limit, h.spot(h.Footprint.Plane.Forward(crs.NewPlane(orb.Point{-74.6, 30}).Inverse(orb.Point{(y - 250) * job.Foot, 20 * job.Foot})), e, e.around))
			require.Equal(t, holds, r.Holds, given)
			require.Equal(t, given != "we" && (holds || given == ""), len(r.Doubts) > 0, "%q %v: %v", given, y, r.Doubts)
		}
	}
}

// shoreOf is the shore before the lot of a sketch.
func shoreOf(t *testing.T, files job.Files, text string) (*Search, *shore) {
	t.Helper()
	j, err := job.Load("job.yaml", strings.NewReader(text))
	require.NoError(t, err)
	require.NoError(t, j.UsePresets(files))
	log := &inputs.Log{}
	shelf, err := inputs.LoadBooks(files, j, log)
	require.NoError(t, err)
	mapped, err := (&layers.Loader{Files: files, Log: log}).Load(j)
	require.NoError(t, err)
	e, err := New(mapped, shelf.Current, j.Envelope.Settled(), j.SearchRadius.Metres, false)
	require.NoError(t, err)
	fronts, err := front.Find(t.Context(), mapped, e.Radius, e.Settings.Tolerance.Metres, 1)
	require.NoError(t, err)
	for i := range fronts {
		if fronts[i].Parcel == 0 {
			h, err := e.newShore(&fronts[i], e.structure)
			require.NoError(t, err)
			return e, h
		}
	}
	t.Fatal("the lot has no front")
	return nil, nil
}

// A dead-end canal 97 ft wide, of one shore: of the water before a lot on its east side, what is
// beyond the middle at 48.5 ft is not the lot's, though shore of the same bank is near; what is a
// little beyond its ends is, until a side line parts it. Worked by hand.
func TestBeyondTheMiddleOfADeadEnd(t *testing.T) {
	s := sketchtest.Sketch{
		"high": {sketchtest.Shape("LineString", `"id":"h","side":"water_left"`, [2]float64{0, -900}, [2]float64{0, 0}, [2]float64{-97, 0}, [2]float64{-97, -900})},
		"lots": {sketchtest.Rectangle(`"parcel_id":"L"`, 0, -120, 100, -40)},
	}
	e, h := shoreOf(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: mhw_farthest, at_most: 30 ft"}},
		"decision_date: 2026-11-25\nbooks: [./town.yaml]\nlayers: {high_water: {file: high}, parcels: {file: lots}}\n")
	require.NotNil(t, e)
	for at, owned := range map[[2]float64]bool{
		{-20, -80}: true, {-48, -80}: true, {-49, -80}: false, {-90, -80}: false, {-90, -30}: false, {-60, -125}: false, {-20, -30}: true, {-20, -130}: true, {5, -80}: false,
	} {
		place := h.Footprint.Plane.Forward(crs.NewPlane(orb.Point{-74.6, 30}).Inverse(orb.Point{at[0] * job.Foot, at[1] * job.Foot}))
		require.Equal(t, owned, h.owns(place), "%v", at)
	}
}

// Straight strips are looked for along the sides of the front themselves, however the shore lies
// to north: one of 100 by 6.3 ft, to which a shore at 7.3 degrees gives no more room than 0.05 ft,
// has 99.8 ft of strip 6 ft wide, which keeps 0.1 ft clear. Worked by hand.
func TestStraightStripsRunAlongTheSides(t *testing.T) {
	sin, cos := math.Sincos(7.3 * math.Pi / 180)
	at := func(along, off float64) [2]float64 { return [2]float64{along*cos - off*sin, along*sin + off*cos} }
	s := sketchtest.Sketch{
		"high": {sketchtest.Shape("LineString", `"id":"h","side":"water_left"`, at(-900, 0), at(900, 0))},
		"lots": {sketchtest.Shape("Polygon", `"parcel_id":"L"`, at(-100, -80), at(100, -80), at(100, 0), at(-100, 0), at(-100, -80))},
	}
	_, h := shoreOf(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: mhw_farthest, at_most: 30 ft"}},
		"decision_date: 2026-11-25\nbooks: [./town.yaml]\nlayers: {high_water: {file: high}, parcels: {file: lots}}\n")
	var ring orb.Ring
	for _, p := range [][2]float64{at(0, 3), at(100, 3), at(100, 9.3), at(0, 9.3), at(0, 3)} {
		ring = append(ring, h.Footprint.Plane.Forward(crs.NewPlane(orb.Point{-74.6, 30}).Inverse(orb.Point{p[0] * job.Foot, p[1] * job.Foot})))
	}
	runs := h.straightIn(orb.MultiPolygon{{ring}}, 6*job.Foot, 20*job.Foot)
	require.NotEmpty(t, runs)
	require.InDelta(t, 100*job.Foot, flat.Distance(runs[0][0], runs[0][1]), 0.3*job.Foot)
}
