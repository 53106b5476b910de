package screening

import (
	"bytes"
	"cmp"
	"context"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// Outcomes of one authority. The easiest path is the one the untouched sandbox takes.
const (
	firm    = "firm"              // on the easiest path
	closely = "close call"        // on whatever path
	asks    = "needs information" // on whatever path
	unsure  = "not firm"          // close call or needs information, on whatever path
	barred  = "barred"            // off the easiest path, whatever is still open
	wary    = "wary"              // anything but firm on the easiest path; also no result, or no run
	hard    = "hard"              // firm on no path but the last; also no result, or no run
)

var easiest = map[string]string{"state": "exemption", "lands": "riparian-setback", "federal": "nwp-54", "town": "small"}

// firmCase is one thing changed of the sandbox and what must come of it.
type firmCase struct {
	name     string
	change   func(*sandbox)
	want     map[string]string // outcomes by authority; those not named are not judged
	says     string            // words, parted by |, of which all must stand in the requests, the notices or the messages
	refused  bool              // the run ends with a message
	unusable bool              // the row has a reason and no result
	measured map[string]string // cells of the row
	id       string            // of the row; empty: a
}

// everyone is one outcome for every authority.
func everyone(outcome string) map[string]string {
	return map[string]string{"state": outcome, "lands": outcome, "federal": outcome, "town": outcome}
}

// TestFirm runs every case; a group alone by -run TestFirm/words.
func TestFirm(t *testing.T) {
	for _, group := range []struct {
		name  string
		cases []firmCase
	}{
		{"order", inOrderCases}, {"words", wordCases}, {"tidal", tidalCases}, {"coverage", coverageCases}, {"heights", heightCases},
		{"age", ageCases}, {"neighbours", neighbourCases}, {"crowds", crowdCases}, {"levels", levelCases}, {"digits", digitCases}, {"drawn", drawnCases}, {"asked", askedCases}, {"books", bookCases}, {"reach", reachCases},
	} {
		t.Run(group.name, func(t *testing.T) {
			for _, c := range group.cases {
				t.Run(c.name, func(t *testing.T) { c.run(t) })
			}
		})
	}
}

func (c firmCase) run(t *testing.T) {
	s := newSandbox()
	if c.change != nil {
		c.change(s)
	}
	j, err := job.Load("job.yaml", strings.NewReader(s.job()))
	out := sketchtest.Memory{}
	var report *Report
	if err == nil {
		report, err = Run(context.Background(), j, s, out, Options{Workers: 1})
	}
	if err != nil {
		mayRefuse := len(c.want) > 0 && !slices.ContainsFunc(wanted(c.want), func(o string) bool { return o != wary && o != hard })
		require.True(t, c.refused || mayRefuse, "refused: %v", err)
		requireWords(t, c.says, err.Error())
		return
	}
	require.False(t, c.refused, "the run went on")
	rows := rowsOf(t, out, cmp.Or(c.id, "a"))
	require.NotEmpty(t, rows)
	for _, row := range rows {
		if c.unusable {
			require.NotEmpty(t, row["error"])
		}
		for authority, outcome := range c.want {
			requireOutcome(t, row, authority, outcome)
		}
		said := []string{row["notices"], row["error"]}
		for authority := range easiest {
			said = append(said, row[authority+"_requests"])
		}
		said = slices.Concat(said, report.Messages, report.Doubts, report.Warnings, report.Datums)
		requireWords(t, c.says, strings.Join(said, "\n"))
		for name, value := range c.measured {
			require.Equal(t, value, row[name], name)
		}
	}
}

// rowsOf are the rows of one id, by the names of their columns.
func rowsOf(t *testing.T, files sketchtest.Memory, id string) (out []map[string]string) {
	requests := sketchtest.Rows(t, sketchtest.Memory{"summary.csv": bytes.NewBuffer(files["summary.csv"].Bytes()), "measures.csv": bytes.NewBufferString("id"), "requests.csv": files["requests.csv"]})[id]
	summary, err := csv.NewReader(files["summary.csv"]).ReadAll()
	require.NoError(t, err)
	measures, err := csv.NewReader(files["measures.csv"]).ReadAll()
	require.NoError(t, err)
	for n, cells := range summary[1:] {
		if cells[0] != id {
			continue
		}
		row := map[string]string{}
		for name, text := range requests {
			if strings.HasSuffix(name, "_requests") {
				row[name] = text
			}
		}
		for i, name := range measures[0] {
			row[name] = measures[n+1][i]
		}
		for i, name := range summary[0] {
			row[name] = cells[i]
		}
		out = append(out, row)
	}
	return out
}

func wanted(want map[string]string) []string {
	var out []string
	for _, o := range want {
		out = append(out, o)
	}
	return out
}

func requireOutcome(t *testing.T, row map[string]string, authority, outcome string) {
	t.Helper()
	path, certainty := row[authority+"_path"], row[authority+"_certainty"]
	easy := path == easiest[authority]
	got := fmt.Sprintf("%s: want %s, got %s %s, %q; %s", authority, outcome, path, certainty, row[authority+"_requests"], row["error"])
	switch outcome {
	case firm:
		require.True(t, easy && certainty == firm && row[authority+"_waiver"] == "", got)
	case unsure:
		require.True(t, path != "" && certainty != firm, got)
	case barred:
		require.True(t, path != "" && !easy && row[authority+"_could_be"] != easiest[authority], got)
	case wary:
		require.False(t, easy && certainty == firm && row[authority+"_waiver"] == "", got)
	case hard:
		require.False(t, certainty == firm && path != "individual" && path != "board-review" && path != "full", got)
	default:
		require.Equal(t, outcome, certainty, got)
	}
}

func requireWords(t *testing.T, words, in string) {
	t.Helper()
	for _, word := range strings.Split(words, "|") {
		require.Contains(t, strings.ToLower(in), strings.ToLower(word))
	}
}
