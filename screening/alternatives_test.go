package screening

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// designs are sills on the plain site, 6 ft wide from 3 ft off the shore but for reach.
func designs(rows ...string) sketchtest.Sketch {
	s := sketchtest.PlainSite("")
	s["proposals"] = rows
	return s
}

func design(id, project, alternative string, from, to, length float64) string {
	members := strings.Replace(sketchtest.Plain, `"id":"a"`, `"id":"`+id+`","project":"`+project+`"`, 1)
	if alternative != "" {
		members += `,"alternative":"` + alternative + `"`
	}
	return sketchtest.Rectangle(members, 0, from, length, to)
}

// compare screens a sketch by a town that asks for a reach of at most 10 ft and a length of at
// most 80.
func compare(t *testing.T, s sketchtest.Sketch) (sketchtest.Memory, []map[string]string) {
	t.Helper()
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [./town.yaml]\nproposals: {file: proposals, accuracy: 0.1 ft}\nlayers:\n  high_water: {file: high, accuracy: 0.1 ft, date: 2026-01-01}\n"))
	require.NoError(t, err)
	made := sketchtest.Memory{}
	_, err = Run(t.Context(), j, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: mhw_farthest, at_most: 10 ft", "measure: element_length, at_most: 80 ft"}}, made, Options{Workers: 2})
	require.NoError(t, err)
	if made["alternatives.csv"] == nil {
		return made, nil
	}
	all, err := csv.NewReader(strings.NewReader(made["alternatives.csv"].String())).ReadAll()
	require.NoError(t, err)
	var rows []map[string]string
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = cells[i]
		}
		rows = append(rows, row)
	}
	return made, rows
}

// rowOf is the row of an item.
func rowOf(t *testing.T, rows []map[string]string, kind, item string) map[string]string {
	t.Helper()
	for _, row := range rows {
		if row["kind"] == kind && row["item"] == item {
			return row
		}
	}
	t.Fatalf("no row of %s %s", kind, item)
	return nil
}

// Worked by hand. A reaches 9 ft, B 12 and is no small one, C 8.5 and is 10 ft shorter: C has
// the most margin where least is (1.5 ft of A's 1), B is last. C beats B, and A, which has less
// margin in the reach and in the length. D is of another project and alone.
func TestAlternativesAreSetSideBySide(t *testing.T) {
	made, rows := compare(t, designs(
		design("a", "cove", "A", 3, 9, 60), design("b", "Cove", "B", 6, 12, 60), design("c", "cove", "C", 2.5, 8.5, 50), design("d", "point", "A", 3, 9, 60),
	))
	path := rowOf(t, rows, "path", "")
	require.Equal(t, []string{"c", "a", "b"}, []string{path["id_1"], path["id_2"], path["id_3"]})
	require.Equal(t, []string{"C", "A", "B"}, []string{path["alternative_1"], path["alternative_2"], path["alternative_3"]})
	require.Equal(t, []string{"Small", "Small", "Full"}, []string{path["value_1"], path["value_2"], path["value_3"]})
	require.Equal(t, sketchtest.Rows(t, made)["c"]["town_certainty"], path["result_1"])
	require.NotContains(t, path, "id_4")
	reach := rowOf(t, rows, "criterion", "c0")
	require.Equal(t, "at most 10 ft", reach["limit"])
	require.Equal(t, []string{"1.50", "1.00", "-2.00"}, []string{reach["margin_1"], reach["margin_2"], reach["margin_3"]})
	require.Equal(t, "exceeds", reach["result_3"])
	farthest, nearest := rowOf(t, rows, "measure", "mhw_farthest_ft"), rowOf(t, rows, "measure", "element_length_ft")
	require.Equal(t, []string{"", "+0.5", "+3.5"}, []string{farthest["difference_1"], farthest["difference_2"], farthest["difference_3"]})
	require.Equal(t, []string{"", "+10", "+10"}, []string{nearest["difference_1"], nearest["difference_2"], nearest["difference_3"]})
	require.Contains(t, rowOf(t, rows, "easier path", "")["value_3"], "Small, c0: move 2.0 ft landward")
	for _, row := range rows {
		require.Equal(t, "project cove", row["project"])
	}
	page := made["alternatives.html"].String()
	require.Equal(t, 2, strings.Count(page, "c is better in some of what is decided and worse in nothing"))
	require.NotContains(t, page, "point")
	require.Equal(t, 6, strings.Count(page, "<svg"), "a plan and a section of each")
}

// What differs by less than it may be off is no difference: positions good to 0.1 ft on either
// side put a reach within 0.10 ft (1.6449 x the square root of 2 x 0.1 / 2.4477).
func TestNoDifferenceWithinTolerance(t *testing.T) {
	_, rows := compare(t, designs(design("a", "cove", "A", 3, 9, 60), design("b", "cove", "B", 3.08, 9.08, 60), design("c", "cove", "C", 3.12, 9.12, 60)))
	farthest := rowOf(t, rows, "measure", "mhw_farthest_ft")
	require.Equal(t, []string{"a", "b", "c"}, []string{farthest["id_1"], farthest["id_2"], farthest["id_3"]})
	require.Equal(t, "no difference", farthest["difference_2"])
	require.Equal(t, "+0.12", farthest["difference_3"])
}

// Projects of one alternative, and proposals that state none, are not compared; one without a
// result has its place, and beats nothing nor is beaten.
func TestWhatIsNotCompared(t *testing.T) {
	made, rows := compare(t, designs(design("a", "cove", "A", 3, 9, 60), design("b", "cove", "A", 3, 9, 40), design("c", "", "", 3, 9, 30)))
	require.Nil(t, rows)
	require.NotContains(t, made, "alternatives.html")
	made, rows = compare(t, designs(design("a", "cove", "A", 3, 9, 60), `{"type":"Feature","properties":{"id":"b","project":"cove","alternative":"B"},"geometry":null}`))
	path := rowOf(t, rows, "path", "")
	require.Equal(t, []string{"a", "b", ""}, []string{path["id_1"], path["id_2"], path["value_2"]})
	page := made["alternatives.html"].String()
	require.Contains(t, page, "no result: ")
	require.NotContains(t, page, "is better in some")
}
