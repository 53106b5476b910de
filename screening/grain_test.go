package screening

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// The tolerance of both accuracies, 0.1 ft each, is 1.6449/2.4477 of 0.141421 ft: 0.0950.
// Half of 0.00001 degree of the equator, whose degree is 111,319.49 m, is 1.8261 ft;
// seven decimals leave 0.0183 ft, which does not count. Worked by hand.
func TestFewDecimalsCountAsHowFarDistancesMayBeOff(t *testing.T) {
	bed := func(west, east, south, north string) string {
		return `{"type":"Feature","properties":{},"geometry":{"type":"Polygon","coordinates":[[[` + west + "," + south + "],[" + east + "," + south + "],[" + east + "," + north + "],[" + west + "," + north + "],[" + west + "," + south + `]]]}}`
	}
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["coarse"] = []string{bed("-74.59874", "-74.59852", "30.00031", "30.00062")}
	s["fine"] = []string{bed("-74.5987401", "-74.5985202", "30.0003101", "30.0006202")}
	s["coarse and far"] = []string{bed("-74.65001", "-74.65002", "30.05001", "30.05002"), bed("-74.55001", "-74.55002", "29.95001", "29.95002")}
	s["fine and farther"] = []string{bed("-74.5980001", "-74.5979001", "30.0007001", "30.0008001")}
	s["empty"], s["everywhere"] = []string{}, []string{sketchtest.Rectangle("", -300, -300, 300, 300)}
	for layer, tolerance := range map[string]float64{
		"{file: coarse, accuracy: 0.1 ft}": 0.0950 + 1.8261, "{file: fine, accuracy: 0.1 ft}": 0.0950,
		"{file: coarse, accuracy: 0.1 ft, datum_shift: 2 ft}":               0.0950 + 1.8261 + 2,
		"{file: coarse and far, accuracy: 0.1 ft}":                          0.0950 + 1.8261,
		"{file: [fine, coarse and far], accuracy: 0.1 ft}":                  0.0950, // the bed near is of the fine file
		"{file: [fine and farther, coarse], accuracy: 0.1 ft}":              0.0950 + 1.8261,
		"{file: empty, none: true, surveyed: everywhere, accuracy: 0.1 ft}": 0.0950, // of no position no digits are known
		"{file: coarse, surveyed: everywhere, accuracy: 0.1 ft}":            0.0950 + 1.8261,
	} {
		_, criteria := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: seagrass_nearest, at_least: 50 ft"}}, "  high_water: {file: high, accuracy: 0.1 ft}\n  seagrass: "+layer+"\n")
		got, err := strconv.ParseFloat(criteria[0]["tolerance_ft"], 64)
		require.NoError(t, err, layer)
		require.InDelta(t, tolerance, got, 0.0051, layer) // the table has hundredths
	}
}

// A property that the job names and no feature has is warned of, for each file.
func TestARunSaysWhichPropertiesItDidNotFind(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["dated"] = []string{sketchtest.Rectangle(`"SRC_DATE":"20240820"`, 600, 100, 700, 200)}
	s["lots"] = []string{sketchtest.Rectangle(`"PARCELID":"0001"`, -100, -200, 100, 0)}
	_, report, err := jobOf(t, s, `
proposals: {file: proposals, accuracy: 0.1 ft}
layers:
  high_water: {file: high, accuracy: 0.1 ft}
  seagrass: {file: [dated, grass], accuracy: 0.1 ft, properties: {date: SRC_DATE}}
  parcels: {file: lots, key: PIN}
`)
	require.NoError(t, err)
	require.Equal(t, []string{
		"parcels: no feature of lots has the property PIN, in which parcel_id is looked for: correct the name, or the file",
		"seagrass: no feature of grass has the property SRC_DATE, in which date is looked for: correct the name, or the file",
	}, report.Warnings)
}
