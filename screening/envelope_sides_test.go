package screening

import (
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/rules"
)

// Before a lot of which both, one or no side lines are given, 10 ft from its west side and
// 240 from there. Worked by hand.
func TestPlacesBesideSideLines(t *testing.T) {
	for _, given := range []string{"we", "w", ""} {
		files, layers := sidesOf(given)
		e, h := shoreOf(t, files, layers)
		limit := e.paths[0].criteria[0]
		for y, holds := range map[float64]bool{10: false, 240: true} {
			r := rules.Judge(e.paths[0].path, limit, h.spot(h.fp.Plane.Forward(crs.NewPlane(orb.Point{-74.6, 30}).Inverse(orb.Point{(y - 250) * foot, 20 * foot})), e))
			require.Equal(t, holds, r.Holds, given)
			require.Equal(t, given != "we" && (holds || given == ""), len(r.Doubts) > 0, "%q %v: %v", given, y, r.Doubts)
		}
	}
}

// shoreOf is the shore before the lot of a sketch.
func shoreOf(t *testing.T, files Files, text string) (*envelope, *shore) {
	t.Helper()
	job, err := LoadJob("job.yaml", strings.NewReader(text))
	require.NoError(t, err)
	require.NoError(t, job.checkEnvelope())
	log := &inputLog{}
	shelf, err := loadBooks(files, job, log)
	require.NoError(t, err)
	layers, err := (&loader{files: files, log: log}).layers(job)
	require.NoError(t, err)
	e, err := newEnvelope(layers, shelf.current, job.Envelope.settled(), job.SearchRadius.Metres)
	require.NoError(t, err)
	fronts, err := findFronts(t.Context(), layers, e.radius, e.settings.Tolerance.Metres, 1)
	require.NoError(t, err)
	for i := range fronts {
		if fronts[i].parcel == 0 {
			h, err := e.newShore(&fronts[i], e.structure)
			require.NoError(t, err)
			return e, h
		}
	}
	t.Fatal("the lot has no front")
	return nil, nil
}
