package front

import (
	"context"
	"fmt"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/sketchtest"
)

// noted are the notes of parcels by name, and why others front nothing, with how far off
// they lie in feet.
func noted(t *testing.T, m *layers.Set, tolerance float64) (of map[string][]string, without map[string]string) {
	t.Helper()
	fronts, err := Find(context.Background(), m, job.DefaultRadius, tolerance, 2)
	require.NoError(t, err)
	notes, err := NotesOf(context.Background(), m, fronts, job.DefaultRadius, tolerance, 2)
	require.NoError(t, err)
	of, without = map[string][]string{}, map[string]string{}
	for item, said := range notes.Of {
		of[m.Layer("parcels").Distinct(item)] = said
	}
	for _, w := range notes.Without {
		without[m.Layer("parcels").Distinct(w.Parcel)] = fmt.Sprintf("%.1f %s", w.Gap/job.Foot, w.Why)
	}
	return of, without
}

// Worked by hand, the shore along y = 0 and the water north of it: a strip of 100 by 3.1 ft
// with one lot behind it and another behind that; lots 45.2 and 101 ft back; one drawn north
// of the shore, one on the shore's north side; one in the notch of a lot, the sides of which
// end nearer to the shore (11.2 ft from the middle) than it does (25 ft); a lot of 200 by
// 1 ft; two of one id.
func TestWhyParcelsFrontNothing(t *testing.T) {
	m := shoreAndLots(t, sketchtest.Sketch{
		"high": {sketchtest.Shape("LineString", left, sketchtest.Along(0)...)},
		"lots": {
			lot("strip", -300, -3.1, -200, 0), lot("second", -300, -60, -200, -3.1), lot("third", -300, -160, -200, -60),
			lot("street", 0, -200, 100, -45.2), lot("far", 150, -300, 250, -101),
			lot("wet", 400, 20, 500, 80), lot("afloat", -750, 0, -700, 50),
			sketchtest.Shape("Polygon", `"lot":"around"`, [2]float64{-500, -200}, [2]float64{-400, -200}, [2]float64{-400, -5}, [2]float64{-440, -5}, [2]float64{-440, -100},
				[2]float64{-460, -100}, [2]float64{-460, -5}, [2]float64{-500, -5}, [2]float64{-500, -200}),
			lot("notch", -460, -100, -440, -25),
			lot("thin", 600, -200, 601, 0), lot("twin", 650, -200, 700, 0), lot("twin", 700, -200, 750, 0),
		},
	})
	of, without := noted(t, m, job.ParcelTolerance)
	require.Equal(t, map[string][]string{
		"strip":  {"a sliver 3.1 ft wide", "a strip 3.1 ft deep before parcels second, third"},
		"thin":   {"a sliver 1.0 ft wide"},
		"twin":   {"2 parcels have this id; what is drawn for this one is named twin"},
		"twin#2": {"2 parcels have this id; what is drawn for this one is named twin#2"},
	}, of)
	require.Equal(t, map[string]string{
		"second": "3.1 lies behind parcel strip (whose strip is 3.1 ft deep there)",
		"third":  "60.0 lies behind parcel strip (whose strip is 3.1 ft deep there)",
		"street": "45.2 ends 45.2 ft from mean high water, farther than the tolerance of 30 ft",
		"wet":    "20.0 lies across water, or in it",
		"afloat": "0.0 lies on the water side of the shore there",
		"notch":  "25.0 the shore there is nearer to parcel around",
	}, without)

	// Of a greater tolerance all within it are told of; the lot at the street has its front.
	_, without = noted(t, m, 105*job.Foot)
	require.NotContains(t, without, "street")
	require.NotContains(t, without, "far")
}

// Worked by hand: what the shore does not tell is said as the reason.
func TestWhyParcelsFrontNothingThatIsTold(t *testing.T) {
	m := shoreAndLots(t, sketchtest.Sketch{
		"high": {sketchtest.Shape("LineString", "", sketchtest.Along(0)...)},
		"lots": {lot("a", 0, -200, 100, -10)},
	})
	of, without := noted(t, m, job.ParcelTolerance)
	require.Empty(t, of)
	require.Contains(t, without["a"], "10.0 who fronts the shore there cannot be told: the mean high water line: on which side of it the water lies is not known")
}

// On random shores every parcel that reaches within 100 ft of mean high water has a front or
// a reason, and a reason that says how far it ends says more than the tolerance.
func TestNoParcelNearTheShoreVanishes(t *testing.T) {
	reasons := 0
	for seed := range 6 {
		m := shoreAndLots(t, combed(rand.New(rand.NewSource(int64(seed)))))
		fronts, err := Find(context.Background(), m, job.DefaultRadius, 0.1*job.Foot, 2)
		require.NoError(t, err)
		notes, err := NotesOf(context.Background(), m, fronts, job.DefaultRadius, 0.1*job.Foot, 2)
		require.NoError(t, err)
		told := map[int]bool{}
		for _, f := range fronts {
			told[f.Parcel] = true
		}
		for _, w := range notes.Without {
			require.False(t, told[w.Parcel])
			require.NotContains(t, w.Why, "nearer")
			told[w.Parcel] = true
			reasons++
		}
		for item := range m.Layer("parcels").Items { // all of them lie along the shore
			require.True(t, told[item], "seed %d, parcel %d", seed, item)
		}
	}
	require.NotZero(t, reasons)
}
