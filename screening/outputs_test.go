package screening

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// TestTablesAreRFC4180: records end with CRLF and have one field count (RFC 4180,
// section 2, rules 1 and 4); a reader of the standard library takes them.
func TestTablesAreRFC4180(t *testing.T) {
	out := runDemo(t, 1)
	for _, name := range []string{"summary.csv", "criteria.csv"} {
		text := out[name].String()
		require.Equal(t, strings.Count(text, "\n"), strings.Count(text, "\r\n"), name)
		rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		require.NoError(t, err)
		require.Greater(t, len(rows), 20, name)
	}
}

// TestSummaryHeader: the columns and their order that tables built on it rely on.
func TestSummaryHeader(t *testing.T) {
	header, _, _ := strings.Cut(runDemo(t, 1)["summary.csv"].String(), "\r\n")
	want := []string{"id", "kind", "lon", "lat"}
	for _, a := range []string{"state", "lands", "federal", "county"} {
		for _, c := range []string{"title", "path", "certainty", "could_be", "waiver", "tightest", "margin", "rests_on", "blocked_by", "change"} {
			want = append(want, a+"_"+c)
		}
	}
	got := strings.Split(header, ",")
	require.Equal(t, want, got[:len(want)])
	require.Equal(t, []string{"parcels", "requests", "source_file", "version", "not_decided", "error"}, got[len(want):])
}

// TestLayersAreGeoJSON: each is one feature collection; every feature has the
// same properties of ours in the same order, as programs that take the schema
// from the first feature need; and one geometry type in the files we draw.
func TestLayersAreGeoJSON(t *testing.T) {
	out := runDemo(t, 2)
	for name, kind := range map[string]string{"measured.geojson": "LineString", "setbacks.geojson": "LineString", "proposals.geojson": ""} {
		require.True(t, json.Valid(out[name].Bytes()), name)
		var collection struct {
			Type     string
			Features []struct {
				Geometry   *struct{ Type string }
				Properties json.RawMessage
			}
		}
		require.NoError(t, json.Unmarshal(out[name].Bytes(), &collection))
		require.Equal(t, "FeatureCollection", collection.Type)
		var keys []string
		for i, f := range collection.Features {
			if kind != "" {
				require.Equal(t, kind, f.Geometry.Type)
			}
			these := keysOf(t, f.Properties)
			if kind == "" {
				these = featureTail(these)
			}
			if i == 0 {
				keys = these
			}
			require.Equal(t, keys, these, "%s feature %d", name, i+1)
		}
	}
}

// featureTail is what follows the proposal's own properties.
func featureTail(keys []string) []string {
	for i, k := range keys {
		if k == "label" {
			return keys[i:]
		}
	}
	return nil
}

func keysOf(t *testing.T, object json.RawMessage) []string {
	decoder := json.NewDecoder(bytes.NewReader(object))
	_, err := decoder.Token()
	require.NoError(t, err)
	var keys []string
	for decoder.More() {
		key, err := decoder.Token()
		require.NoError(t, err)
		keys = append(keys, key.(string))
		var skip json.RawMessage
		require.NoError(t, decoder.Decode(&skip))
	}
	return keys
}

// TestProposalsComeBackByteForByte: what stands in the input stands in the
// output, up to the place where our properties begin.
func TestProposalsComeBackByteForByte(t *testing.T) {
	in, err := os.ReadFile(filepath.Join(sketchtest.DemoDir, "proposals.geojson"))
	require.NoError(t, err)
	out := runDemo(t, 1)["proposals.geojson"].String()
	n := 0
	for _, line := range strings.Split(string(in), "\n") {
		line = strings.TrimSuffix(strings.TrimSpace(line), ",")
		if !strings.HasPrefix(line, `{ "type": "Feature",`) {
			continue
		}
		// The properties end with the first brace: they hold no object.
		start := strings.Index(line, `"properties"`)
		end := start + strings.Index(line[start:], "}")
		head, tail := strings.TrimRight(line[:end], " "), line[end:]
		at := strings.Index(out, head)
		require.GreaterOrEqual(t, at, 0, head)
		added := out[at+len(head):]
		require.True(t, strings.HasPrefix(added, `,"label":`), added[:40])
		require.Contains(t, added, tail)
		n++
	}
	require.Equal(t, 28, n)
}

// TestWitnessLinesAreAsLongAsTheirMeasure: what a reviewer measures on the map
// between the two points is what the table says.
func TestWitnessLinesAreAsLongAsTheirMeasure(t *testing.T) {
	out := runDemo(t, 1)
	rows := sketchtest.Rows(t, out)
	var drawn struct {
		Features []struct {
			Properties struct {
				ID       string  `json:"id"`
				Measure  string  `json:"measure"`
				Distance float64 `json:"distance_ft"`
			}
		}
	}
	require.NoError(t, json.Unmarshal(out["measured.geojson"].Bytes(), &drawn))
	require.Greater(t, len(drawn.Features), 80)
	for _, f := range drawn.Features {
		p := f.Properties
		value, err := strconv.ParseFloat(rows[p.ID][p.Measure+"_ft"], 64)
		require.NoError(t, err, "%s %s", p.ID, p.Measure)
		require.InDelta(t, value, p.Distance, 0.0101, "%s %s", p.ID, p.Measure)
	}
}
