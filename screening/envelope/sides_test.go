package envelope

import (
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
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
