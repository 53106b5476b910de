package inspect

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// inspected inspects one file of a sketch and returns it as a person and as a machine
// read it.
func inspected(t *testing.T, features ...string) (*Inspection, string) {
	in, err := File(sketchtest.Sketch{"file": features}, "file", job.System{})
	require.NoError(t, err)
	var text strings.Builder
	require.NoError(t, in.Write(&text))
	machine, err := json.Marshal(in)
	require.NoError(t, err)
	return in, text.String() + string(machine)
}

func (in *Inspection) seen(t *testing.T, name string) PropertySeen {
	for _, p := range in.Properties {
		if p.Name == name {
			return p
		}
	}
	t.Fatalf("no property %s", name)
	return PropertySeen{}
}

// A public parcel layer names owners, their addresses and more people in columns of
// many names (users of such layers list them), some only by what they hold.
func TestNobodyIsNamed(t *testing.T) {
	columns := []string{"ONAME", "OADDR1", "OCITY", "PHYADDR1", "OWNER", "OWN1", "OwnerName", "GRANTOR", "GRANTEE", "CONTACT", "LESSEE", "TENANT", "FIRST_NM", "LAST_NAME", "SURNAME", "DEED", "MAILNAME", "EMAIL", "TEL", "TAXPAYER", "NAME", "name", "HOLDER"}
	var properties []string
	for i, c := range columns {
		properties = append(properties, fmt.Sprintf("%q:\"Secret Person %d\"", c, i))
	}
	text := strings.Join(properties, ",")
	bowTie := [][2]float64{{0, -100}, {100, 0}, {100, -100}, {0, 0}, {0, -100}}
	in, said := inspected(t,
		sketchtest.Shape("Polygon", `"id":"Secret Trust","PARCELID":"0007-01","DORUC":"001",`+text, bowTie...),
		sketchtest.Rectangle(`"id":"Secret Trust 2","PARCELID":"0007-02","DORUC":"001",`+text, 200, -100, 300, 0),
		sketchtest.Rectangle(`"PARCELID":null,"DORUC":"100",`+text, 400, -100, 500, 0),
	)
	require.NotContains(t, said, "Secret")
	require.Equal(t, []string{"feature 1"}, in.Faults[0].First)
	require.Equal(t, []ClassSeen{{"0007-01", 1}, {"0007-02", 1}}, in.seen(t, "PARCELID").Classes)
	require.Equal(t, []ClassSeen{{"001", 2}, {"100", 1}}, in.seen(t, "DORUC").Classes)
	require.True(t, in.seen(t, "HOLDER").Hidden)

	// A layer of something else shows its names, but not who applied or is to be called.
	in, said = inspected(t, sketchtest.Rectangle(`"name":"Teal Sound Preserve","TOWN":"Quay Town","UNKNOWN":"brown mud","APPLICANT":"Secret Person","PHONE":"Secret 1"`, 0, 0, 10, 10))
	require.NotContains(t, said, "Secret")
	for _, shown := range []string{"name", "TOWN", "UNKNOWN"} {
		require.Len(t, in.seen(t, shown).Classes, 1, shown)
	}
}

// Twelve lines of a shoreline product: what each kind is and how many there are of it
// is seen, the most frequent first, however late it comes. Worked by hand.
func TestClassesAreCounted(t *testing.T) {
	var features []string
	for i := range 60 {
		kind := "Natural.Mean High Water"
		if i >= 50 {
			kind = "Depth Contour"
		}
		features = append(features, sketchtest.Shape("LineString", fmt.Sprintf(`"KIND":%q,"OBJECTID":%d,"SHEET":"s%d","STAMP":%d`, kind, i, i%12, 1724112000000+i*86400000), sketchtest.Along(float64(i))...))
	}
	features[59] = sketchtest.Shape("LineString", `"KIND":null,"SHEET":"s0","WHEN":1724112000000`, sketchtest.Along(59)...)
	in, said := inspected(t, features...)
	require.Equal(t, []ClassSeen{{"Natural.Mean High Water", 50}, {"Depth Contour", 9}}, in.seen(t, "KIND").Classes)
	require.Equal(t, map[string]int{"text": 59, "empty": 1}, in.seen(t, "KIND").Types)
	// Twelve sheets of five lines each, but the twelfth lost its last line to the first.
	sheets := in.seen(t, "SHEET")
	require.Equal(t, []ClassSeen{{"s0", 6}, {"s1", 5}, {"s10", 5}, {"s2", 5}, {"s3", 5}, {"s4", 5}, {"s5", 5}, {"s6", 5}}, sheets.Classes)
	require.Equal(t, 4, sheets.More)
	require.Contains(t, said, "s6 (5), and 4 more values")
	// A number for each line is no class; a count of milliseconds is shown as a day
	// (1724112000 s is 2024-08-20 00:00 UTC by date -u -d @1724112000, GNU coreutils 9).
	require.Equal(t, []string{"0", "1", "2"}, in.seen(t, "OBJECTID").Examples)
	require.Empty(t, in.seen(t, "OBJECTID").Classes)
	require.Equal(t, "1724112000000 (if milliseconds: 2024-08-20)", in.seen(t, "STAMP").Examples[0])
	require.Equal(t, "1724112000000 (if milliseconds: 2024-08-20)", in.seen(t, "WHEN").Classes[0].Value)
}

// What a number of digits means for positions, in two figures.
func TestHowGoodPositionsAre(t *testing.T) {
	for feet, text := range map[float64]string{1826.1: "1800 ft", 18.26: "18 ft", 0.01826: "0.018 ft", 0.0012: "0.0012 ft", 0.0002: "less than 0.001 ft", 0: "less than 0.001 ft"} {
		require.Equal(t, text, grainText(feet))
	}
}
