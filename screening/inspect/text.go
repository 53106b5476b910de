package inspect

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"
	"text/tabwriter"

	"waterward/geo/text"
)

// Write prints an inspection for a person.
func (in *Inspection) Write(w io.Writer) error {
	page := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	line := func(name, format string, args ...any) {
		fmt.Fprintf(page, "  %s\t%s\n", name, text.Visible(fmt.Sprintf(format, args...)))
	}
	title := in.File
	if in.Layer != "" {
		title = in.Layer + ": " + in.File
	}
	fmt.Fprintf(page, "%s\n", text.Visible(title))
	if in.Refused != "" {
		line("refused", "%s", in.Refused)
	}
	if in.SHA256 == "" { // it could not be read to its end
		return page.Flush()
	}
	line("size", "%d bytes, SHA-256 %s", in.Bytes, in.SHA256)
	rebuilt := ""
	if in.Rebuilt > 0 {
		rebuilt = fmt.Sprintf(" and %d would be rebuilt", in.Rebuilt)
	}
	line("features", "%d, of which %d cannot be used%s", in.Features, in.Unusable, rebuilt)
	line("geometry", "%s", counts(in.Types))
	assumed := ""
	if in.Assumed {
		assumed = ", assumed, as the file states none"
	}
	line("coordinates", "%s%s", in.CRS, assumed)
	if in.Extent != nil {
		line("extent", "%.5f to %.5f longitude, %.5f to %.5f latitude", in.Extent[0], in.Extent[2], in.Extent[1], in.Extent[3])
		line("decimals", "%d in the coarsest feature, so its positions are good to %s at best", in.Decimals, grainText(in.GrainFt))
	}
	for _, text := range in.Warnings {
		line("mind", "%s", text)
	}
	for _, f := range in.Faults {
		wrong := f.Wrong
		if f.Remedy != "" {
			wrong += " (" + f.Remedy + ")"
		}
		line("fault", "%d x %s: %s", f.Count, wrong, strings.Join(f.First, ", "))
	}
	for i := range in.Properties {
		name := ""
		if i == 0 {
			name = "properties"
		}
		line(name, "%s", &in.Properties[i])
	}
	return page.Flush()
}

// finest is the grain, in feet, below which figures say nothing more.
const finest = 0.001

// grainText is how good positions are, in two figures.
func grainText(feet float64) string {
	if feet < finest {
		return fmt.Sprintf("less than %g ft", finest)
	}
	digits := strconv.FormatFloat(feet, 'g', 2, 64)
	rounded, _ := strconv.ParseFloat(digits, 64)
	return strconv.FormatFloat(rounded, 'f', -1, 64) + " ft"
}

// counts writes how many there are of each, most first.
func counts(of map[string]int) string {
	names := slices.SortedFunc(maps.Keys(of), func(a, b string) int { return cmp.Or(of[b]-of[a], strings.Compare(a, b)) })
	var out []string
	for _, name := range names {
		out = append(out, fmt.Sprintf("%d %s", of[name], name))
	}
	return cmp.Or(strings.Join(out, ", "), "none")
}
