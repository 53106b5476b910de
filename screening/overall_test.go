package screening

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// overall are the properties that a map is labelled and coloured by, by proposal.
func overall(t *testing.T, text []byte) map[string][3]string {
	var all struct {
		Features []struct {
			Properties struct {
				ID, Label, Outcome string
				Certainty          string `json:"worst_certainty"`
			}
		}
	}
	require.NoError(t, json.Unmarshal(text, &all))
	made := map[string][3]string{}
	for _, f := range all.Features {
		p := f.Properties
		made[p.Label] = [3]string{p.ID, p.Outcome, p.Certainty}
	}
	return made
}

// TestProposalsAreLabelled: from the paths and certainties of expected.csv, which are worked
// by hand. A path is the easiest if no easier one is for such a structure: shore protection
// of lands is not for a breakwater.
func TestProposalsAreLabelled(t *testing.T) {
	got := overall(t, runDemo(t, 1)["proposals.geojson"].Bytes())
	for label, want := range map[string][3]string{
		"P-01: easiest path; firm": {"P-01", "easiest path", "firm"},
		"P-05: state individual, lands riparian-setback with waiver, county individual; firm": {"P-05", "harder path", "firm"},
		"P-12: no result": {"P-12", "no result", ""},
		"P-20: lands riparian-setback with waiver, county individual; needs information": {"P-20", "harder path", "needs information"},
		"P-23: lands riparian-setback with waiver; close call":                           {"P-23", "needs a waiver", "close call"},
		"P-26: lands riparian-setback with waiver; needs information":                    {"P-26", "needs a waiver", "needs information"},
		"P-28: state individual, county general; needs information":                      {"P-28", "harder path", "needs information"},
	} {
		require.Equal(t, want, got[label], label)
	}
}

// TestWhatBlocksIsSaidInWords: by path, nearest first, in the words of the books; what is not
// known is not said to fail. A sill 3 to 12 ft off the shore without a crest. Worked by hand.
func TestWhatBlocksIsSaidInWords(t *testing.T) {
	blocked := func(properties string, criteria ...string) any {
		out := screenedBy(t, sketchtest.PlainSite(sketchtest.Rectangle(properties, 0, 3, 60, 12)), criteria...)
		var all struct {
			Features []struct{ Properties map[string]any }
		}
		require.NoError(t, json.Unmarshal(out["proposals.geojson"].Bytes(), &all))
		return all.Features[0].Properties["blocked_by"]
	}
	reach, crest := `measure: mhw_farthest, at_most: 10 ft, says: No farther than 10 ft`, `measure: crest_above_mhw, at_most: 0 ft, says: Crest not above mean high water`
	require.Equal(t, "town, Small: No farther than 10 ft; Crest not above mean high water (not known)", blocked(`"id":"a","kind":"sill"`, reach, crest))
	require.Equal(t, "town, Small: No farther than 10 ft", blocked(sketchtest.Plain, reach, crest))
	require.Nil(t, blocked(sketchtest.Plain, crest))
}

// TestWhatNoPathIsForIsOnNoEasyOne: the last path takes what the others are not for, and is
// then the only one for it; nothing blocks, yet it is not the easiest. Worked by hand.
func TestWhatNoPathIsForIsOnNoEasyOne(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(`"id":"a","kind":"dock"`, 0, 3, 60, 9))
	text := screenedBy(t, s, "measure: kind, any_of: [sill], scope: true")["proposals.geojson"]
	require.Equal(t, map[string][3]string{"a: town full; firm": {"a", "harder path", "firm"}}, overall(t, text.Bytes()))
}

// TestVersionsNotDecidedAreLabelledSo: of two versions the later is decided.
func TestVersionsNotDecidedAreLabelledSo(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain+`,"version":1`, 0, 3, 60, 12))
	s["proposals"] = append(s["proposals"], sketchtest.Rectangle(sketchtest.Plain+`,"version":2,"Label":"their own"`, 0, 3, 60, 9))
	text := screenedBy(t, s, "measure: mhw_farthest, at_most: 10 ft")["proposals.geojson"]
	require.Equal(t, map[string][3]string{
		"a: not decided":        {"a", "not decided", ""},
		"a: easiest path; firm": {"a", "easiest path", "firm"},
	}, overall(t, text.Bytes()))
	require.Contains(t, text.String(), `"Label_given":"their own"`)
}
