package screening

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geo"
	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// milesIn is the number of miles behind a text of a page.
func milesIn(t *testing.T, page, pattern string) float64 {
	found := regexp.MustCompile(pattern).FindStringSubmatch(page)
	require.NotNil(t, found, pattern)
	miles, err := strconv.ParseFloat(found[1], 64)
	require.NoError(t, err)
	return miles
}

// The report counts the whole mapped shore of the demo: its lines measured here on a sphere,
// which is within 0.6 % of any ellipsoid, by github.com/paulmach/orb/geo.
func TestReportCountsTheWholeShore(t *testing.T) {
	page := demoEnvelope(t, 2)["report.html"].String()
	raw, err := os.ReadFile(filepath.Join(sketchtest.DemoDir, "mhw.geojson"))
	require.NoError(t, err)
	var shore struct {
		Features []struct {
			Geometry struct{ Coordinates []orb.Point }
		}
	}
	require.NoError(t, json.Unmarshal(raw, &shore))
	metres := 0.0
	for _, f := range shore.Features {
		metres += geo.LengthHaversine(orb.LineString(f.Geometry.Coordinates))
	}
	miles := metres / 1609.344
	require.InEpsilon(t, miles, milesIn(t, page, `of ([0-9.]+) miles of shore, could take one structure`), 0.006)
}

// What the demo's drawing says of three waters, worked by hand from its local feet: the lease
// survey stops short of the creek's two fronts of 100 ft (0.038 miles), the grass survey leaves
// out 0007-A18 (200 ft), and no low water is mapped in the ditch (160 ft, 0.030 miles).
func TestReportSaysWhatWouldSettleIt(t *testing.T) {
	page := demoEnvelope(t, 2)["report.html"].String()
	for _, sentence := range []string{
		"A survey of shellfish lease in mhw-creek-south would settle 0.038 miles.",
		"A seagrass survey of mhw-west would settle 0.038 miles.",
		"A survey of mean low water along mhw-ditch would settle 0.030 miles.",
	} {
		require.True(t, strings.Contains(page, sentence), sentence)
	}
}

// The report says of every parcel what the tables say.
func TestReportAgreesWithTheTables(t *testing.T) {
	files := demoEnvelope(t, 2)
	rows := sketchtest.ReadTable(t, files["parcels.csv"])
	data := regexp.MustCompile(`(?s)id="data">(.*?)</script>`).FindStringSubmatch(files["report.html"].String())[1]
	var columns struct {
		Words       []string
		ID          []string
		Joint, Long []int
		Feet        []int
		By          []struct {
			Name, Path string
			Paths      []string
		}
	}
	require.NoError(t, json.Unmarshal([]byte(data), &columns))
	require.Len(t, columns.ID, len(rows))
	for i, id := range columns.ID {
		row := rows[id]
		feet, err := strconv.ParseFloat(row["frontage_ft"], 64)
		require.NoError(t, err)
		require.Equal(t, int(math.Round(feet)), columns.Feet[i], id)
		require.Equal(t, row["joint"], columns.Words[columns.Joint[i]], id)
		for _, a := range columns.By {
			title := "not known"
			if a.Path[i] != '-' {
				title = a.Paths[a.Path[i]-'a']
			}
			require.Equal(t, row[a.Name+"_title"], title, id)
		}
	}
}

// What is written of a place is the same for any number of workers.
func TestReportIsTheSameForAnyWorkers(t *testing.T) {
	require.Equal(t, demoEnvelope(t, 1)["report.html"].String(), demoEnvelope(t, 4)["report.html"].String())
}
