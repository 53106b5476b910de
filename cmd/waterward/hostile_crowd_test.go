package main

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// crowd is many proposals beside one another.
type crowd struct {
	name     string
	n        int
	states   func(i int) string
	geometry func(i int) string
	says     string // in the decision of the first; empty: nothing of the kind
}

var crowds = []crowd{
	{"200 modules of one project, one beside the next", 200, func(i int) string { return fmt.Sprintf(`"id":"m%d","project":"X"`, i) }, module(0.2, 0.15), ""},
	{"200 modules of one project on several paths", 200, func(i int) string {
		return fmt.Sprintf(`"id":"m%d","project":"X","kind":%q`, i, []string{"breakwater", "dock", "sill"}[i%3])
	}, module(4, 3), "17 more, with which it is one structure, come out on harder paths"},
	{"600 parts of one id that each state another material", 600, func(i int) string { return fmt.Sprintf(`"id":"one","part":%d,"material":"shell %d"`, i, i) }, module(4, 3), "its parts state 600 different things"},
	{"500 strangers over one another", 500, func(i int) string { return fmt.Sprintf(`"id":"s%d"`, i) }, module(0.01, 3), "449 more proposals overlap it"},
	{"1,100 strangers over one another", 1100, func(i int) string { return fmt.Sprintf(`"id":"s%d"`, i) }, module(0.01, 3), "1099 other proposals lie beside it"},
}

// module draws boxes so wide, one every so many feet.
func module(pitch, wide float64) func(i int) string {
	return func(i int) string { return polygonOf(box(float64(i)*pitch, 30, wide, wide)) }
}

// TestNoCrowdStopsABatch screens proposals that lie beside one another: each gets its row, in
// bounded time and memory, and the first is not firm where it says what was not looked at.
func TestNoCrowdStopsABatch(t *testing.T) {
	for _, c := range crowds {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			var features []string
			for i := range c.n {
				features = append(features, fmt.Sprintf(`{"type":"Feature","properties":{"crest_elev_ft":0.2,"datum":"NAVD88","fill":"no",%s},"geometry":%s}`, c.states(i), c.geometry(i)))
			}
			out := bounded(t, []byte(`{"type":"FeatureCollection","features":[`+strings.Join(features, ",")+"]}"), 0)
			rows := rowsOf(t, filepath.Join(out, "summary.csv"))
			require.Len(t, rows, c.n)
			for _, row := range rows {
				require.Empty(t, row["error"])
				require.True(t, row["not_decided"] != "" || row["state_path"] != "")
			}
			if c.says != "" {
				require.NotEqual(t, "firm", rows[0]["state_certainty"])
			}
			var asked []string
			for _, row := range rowsOf(t, filepath.Join(out, "requests.csv")) {
				if row["id"] == rows[0]["id"] {
					asked = append(asked, row["request"])
				}
			}
			require.Contains(t, strings.Join(asked, "\n"), c.says)
		})
	}
}
