package pages

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// hostile are texts that an applicant could send to run something, or to hide it.
var hostile = []string{
	`</script><script>document.title="owned"</script>`, `"><img src=x onerror=alert(1)>`, `{{.Data}}`, `<!--`, `]]>`, "a\u2028b", `javascript:alert(1)`, `' onmouseover='x`, `</noscript><b>`, `&lt;b&gt;`,
}

// made is a page of so many invented proposals, two authorities and every certainty; the
// first ids are hostile.
func made(t testing.TB, rows int) string {
	page := NewTriagePage([]Authority{
		{"state", "State rules", []Path{{"exemption", "Exemption"}, {"general", "General permit"}, {"individual", "Individual permit"}}},
		{"county", hostile[0], []Path{{"small", "Small structure"}, {"full", "Full review"}}},
	})
	for i := range rows {
		id := fmt.Sprintf("P-%d", i)
		if i < len(hostile) {
			id = hostile[i]
		}
		row := Row{ID: id, Kind: []string{"sill", "breakwater"}[i%2], Parcels: fmt.Sprintf("00%d", i%7), File: "in/a.geojson", Place: "-74.6, 30"}
		switch {
		case i%9 == 8:
			row.Error = "feature " + id + ": it has no geometry"
		case i%9 == 7:
			row.Aside = "version 1; version 2 is decided"
		default:
			row.Notices, row.Data = []string{"notice " + id}, []string{"the mean high water line (m) of 2026-05-12"}
			if i%3 == 0 {
				row.Requests = []Request{{"state the fill of " + id, "state", "state: Exemption if this bears it out, else General permit"}, {"state the datum", "state, county", "county: Full review, firm if this bears it out"}}
			}
			rule := Rule{Path: "Exemption", Says: "No farther than 10 ft", Value: fmt.Sprintf("%d ft", i%20), Limit: "at most 10 ft", Tolerance: "0.48 ft", Result: "meets", Evidence: "account of the rule", Cite: "Rule 1", On: true}
			off := rule
			off.On, off.Result, off.Change = false, "exceeds", "move 3 ft landward"
			row.Decisions = []Decision{{Path: i % 3, Certainty: Certainty(i % 3), RestsOn: "memory", Rules: []Rule{off, rule}}, {Path: i % 2, RestsOn: "memory", CouldBe: "small", Rules: []Rule{rule}, Open: []string{"otherwise " + id}}}
		}
		page.Add(row)
	}
	var b bytes.Buffer
	require.NoError(t, page.Write(&b, Triage{Title: hostile[1], Day: "25 November 2026", Caution: "Screening only.", Notices: hostile, Warnings: hostile, Sources: []Source{{Role: "proposals", File: hostile[0], SHA256: "0123456789abcdef"}}}))
	return b.String()
}

// What a page may hold: nothing is fetched, nothing but its own style and script can run
// (Content Security Policy Level 3, W3C), and what a file says stands in it as text alone.
func TestNothingForeignRuns(t *testing.T) {
	page := made(t, 40)
	require.NotContains(t, page, "http:")
	require.NotContains(t, page, "https:")
	for _, never := range []string{" style=", " onclick", "<img", "<link", "<iframe", "@import", "url(", "<pattern", "paint-order"} {
		require.NotContains(t, page, never)
	}
	require.Equal(t, 2, strings.Count(page, "<script"))
	require.Equal(t, 2, strings.Count(page, "</script>"))
	require.Equal(t, 1, strings.Count(page, "<style>"))
	for tag, directive := range map[string]string{"style": "style-src", "script": "script-src"} {
		inner := regexp.MustCompile(`(?s)<` + tag + `>(.*?)</` + tag + `>`).FindStringSubmatch(page)[1]
		sum := sha256.Sum256([]byte(inner))
		require.Contains(t, page, directive+" &#39;sha256-"+strings.ReplaceAll(base64.StdEncoding.EncodeToString(sum[:]), "+", "&#43;")+"&#39;")
	}
	var columns struct {
		ID    []string
		Words []string
	}
	require.NoError(t, json.Unmarshal([]byte(dataOf(page)), &columns))
	shown := slices.Clone(hostile)
	shown[slices.Index(shown, "a\u2028b")] = `a\u2028b` // what breaks a line is written out
	require.Equal(t, shown, columns.ID[:len(hostile)])
}

// dataOf is the JSON that stands in a page.
func dataOf(page string) string {
	return regexp.MustCompile(`(?s)id="data">(.*?)</script>`).FindStringSubmatch(page)[1]
}

// Counts of 40 invented proposals by hand: of each 9 rows one has no result, one is aside,
// and every third of all 40 asks for two things, of which none is one of these.
func TestWhatThePageSaysFirst(t *testing.T) {
	page := made(t, 40)
	require.Contains(t, page, "40 proposals under the rules of 25 November 2026")
	require.Contains(t, page, "32 decided, 4 without a result, 4 that are earlier versions or parts of others")
	require.Contains(t, page, "28 things to ask about 14 of them")
	require.Contains(t, page, "<li><b>14</b><div>state the datum ")
	require.Contains(t, page, "<li><b>32</b><div>No farther than 10 ft ")
}

// Every row stands in the page for readers without script, with its reasons, up to a number.
func TestWithoutScript(t *testing.T) {
	inner := func(page string) string {
		return regexp.MustCompile(`(?s)<noscript>(.*?)</noscript>`).FindStringSubmatch(page)[1]
	}
	few := inner(made(t, 40))
	require.Equal(t, 40, strings.Count(few, "<article>"))
	require.Contains(t, few, "No farther than 10 ft: 12 ft, at most 10 ft, may be off 0.48 ft; account of the rule. Would need: move 3 ft landward.")
	require.NotContains(t, few, "more proposals stand in")
	many := inner(made(t, mostShown+17))
	require.Equal(t, mostShown, strings.Count(many, "<article>"))
	require.Contains(t, many, "17 more proposals stand in summary.csv")
}

func TestNoProposalAtAll(t *testing.T) {
	page := made(t, 0)
	require.Contains(t, page, "0 proposals")
	require.Contains(t, page, "no proposal was decided")
}

// BenchmarkTriage: a page of 5,000 proposals.
func BenchmarkTriage(b *testing.B) {
	for b.Loop() {
		b.ReportMetric(float64(len(made(b, 5000))), "bytes")
	}
}
