package pages

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// five are five designs of an invented project, the plan and the section of each drawn by hand.
func five() *Alternatives {
	c := Comparison{Title: "project <b>Hollow</b> Cove", Groups: []ComparedGroup{{Title: "Measures", Same: []string{"openings"}, Rows: []ComparedRow{{Name: "length", Limit: "at most 10 ft"}}}}}
	for _, name := range []string{"A", "B", "C", "</table><script>document.title='owned'</script>", "E"} {
		s := byHand()
		c.Designs = append(c.Designs, Design{ID: name + "-1", Alternative: name, Outcome: "easiest path", Plan: &s.Plan, Section: &s.Section})
		c.Groups[0].Rows[0].Cells = append(c.Groups[0].Rows[0].Cells, ComparedCell{name + " long", "no difference"})
	}
	c.Designs[4].Plan, c.Designs[4].Section = nil, nil
	return &Alternatives{Title: "Marrowby County", Day: "25 November 2026", Caution: "Screening only.", Projects: []Comparison{c}}
}

// Tables of four designs and of one, drawings of two, two and one without: five sheets, on
// letter paper across; what a file says does nothing.
func TestThePageOfAlternatives(t *testing.T) {
	var b strings.Builder
	require.NoError(t, five().Write(&b))
	page := b.String()
	require.Equal(t, 5, strings.Count(page, `<section class="sheet">`))
	require.Equal(t, 8, strings.Count(page, "<svg"))
	require.Equal(t, 8, strings.Count(page, `width="4.9in"`), "plans at their scale, sections as wide")
	require.Equal(t, 3, strings.Count(page, "Plans at 1 in = "))
	require.Equal(t, 4, strings.Count(page, "Not to scale"))
	document := opened(t, page, "")
	require.NotContains(t, document, "<title>owned")
	require.NotContains(t, document, "<b>Hollow")
	dir := t.TempDir()
	file := filepath.Join(dir, "page.pdf")
	browsed(t, page, "", dir, "--no-pdf-header-footer", "--print-to-pdf="+file)
	about := asked(t, "pdfinfo", "-l", "-1", file)
	require.Regexp(t, `Pages: +5\n`, about)
	require.Regexp(t, `Page +1 size: +792 x 612 pts`, about)
}
