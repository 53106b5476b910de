package screening

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"text/tabwriter"
)

// Write prints an inspection for a person.
func (in *Inspection) Write(w io.Writer) error {
	page := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	line := func(name, format string, args ...any) {
		fmt.Fprintf(page, "  %s\t%s\n", name, plainText(fmt.Sprintf(format, args...)))
	}
	fmt.Fprintf(page, "%s\n", plainText(in.File))
	line("size", "%d bytes, SHA-256 %s", in.Bytes, in.SHA256)
	rebuilt := ""
	if in.Rebuilt > 0 {
		rebuilt = fmt.Sprintf(" and %d would be rebuilt", in.Rebuilt)
	}
	line("features", "%d, of which %d cannot be used%s", in.Features, in.Unusable, rebuilt)
	line("geometry", "%s", counts(in.Types))
	line("coordinates", "%s", in.CRS)
	if in.Extent != nil {
		line("extent", "%.5f to %.5f longitude, %.5f to %.5f latitude", in.Extent[0], in.Extent[2], in.Extent[1], in.Extent[3])
	}
	line("decimals", "%d at most, so positions are good to %g ft at best", in.Decimals, in.GrainFt)
	for _, text := range in.Warnings {
		line("mind", "%s", text)
	}
	for _, f := range in.Faults {
		line("fault", "%d x %s: %s", f.Count, f.Wrong, strings.Join(f.First, ", "))
	}
	for i, p := range in.Properties {
		name := ""
		if i == 0 {
			name = "properties"
		}
		examples := "not shown, as it may name a person"
		if !personal.MatchString(p.Name) {
			examples = strings.Join(p.Examples, ", ")
		}
		line(name, "%s: %s; %s", p.Name, counts(p.Types), examples)
	}
	return page.Flush()
}

// counts writes how many there are of each, most first.
func counts(of map[string]int) string {
	names := slices.SortedFunc(maps.Keys(of), func(a, b string) int {
		if of[a] != of[b] {
			return of[b] - of[a]
		}
		return strings.Compare(a, b)
	})
	var out []string
	for _, name := range names {
		out = append(out, fmt.Sprintf("%d %s", of[name], name))
	}
	if out == nil {
		return "none"
	}
	return strings.Join(out, ", ")
}

// plainText takes out of text from an input what would steer a terminal or break
// the line.
func plainText(text string) string {
	return strings.Map(func(c rune) rune {
		if c < ' ' || c == 0x7f || c >= 0x80 && c < 0xa0 {
			return '?'
		}
		return c
	}, text)
}
