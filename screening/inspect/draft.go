package inspect

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/text"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/levels"
)

// Draft writes a job for files that nobody has sorted yet: which layer each
// seems to be, by its name and geometry, with what is still to be stated. It is a
// draft to be read and corrected, and says so. Every file stands in it, in a remark if
// it is no layer. Tables are files that are no features and may be of tide stations. The
// draft decides on the day given, by the rules that hold everywhere.
func Draft(files job.Files, names, tables []string, day job.Day) string {
	var all []*drafted
	var b strings.Builder
	fmt.Fprintf(&b, "# A draft: which layer each file is has been guessed from its name, geometry and properties.\n"+
		"# Read every line, state what is asked for, and take out what is wrong.\n"+
		"decision_date: %s # the day whose rules decide\n"+
		"books: [us-federal] # and those of the state and the county: waterward rules list\n", job.DayText(day.Time))
	for _, name := range names {
		found, err := File(files, name, job.System{})
		switch {
		case err != nil && !station(files, name):
			fmt.Fprintf(&b, "# not read: %s\n", text.Visible(err.Error()))
		case err != nil:
			tables = append(tables, name)
		case found.Features > 0 && found.alien == found.Features:
			fmt.Fprintf(&b, "# no layer: %q, none of what it holds is a GeoJSON feature\n", name)
		default:
			all = append(all, guess(name, found))
		}
	}
	cover(all)
	slices.SortStableFunc(all, func(a, b *drafted) int {
		return cmp.Or(cmp.Compare(a.worth(), b.worth()), cmp.Compare(a.sureness, b.sureness))
	})
	extent := extentOf(all)
	for _, d := range all {
		if d.layer == "" && d.unfit != "" {
			fmt.Fprintf(&b, "# no layer: {file: %q} # %s\n", d.file, d.remarks(extent))
		}
	}
	written := map[string]bool{}
	write := func(layer, indent, key string) {
		for _, d := range all {
			if d.layer != layer {
				continue
			}
			if written[layer] { // a choice for who knows the files, or several of one layer
				indent = "# or: "
			}
			written[layer] = true
			fmt.Fprintf(&b, "%s%s: {file: %q", indent, key, d.file)
			if d.surveyed != "" {
				fmt.Fprintf(&b, ", surveyed: %q", d.surveyed)
			}
			b.WriteString(d.system(extent) + "} # " + d.remarks(extent) + "\n")
		}
	}
	head := "proposals:\n"
	for _, d := range all {
		if d.layer == "proposals" {
			fmt.Fprintf(&b, "%s  - {file: %q%s} # %s\n", head, d.file, d.system(extent), d.remarks(extent))
			head = ""
		}
	}
	writeStations(&b, files, tables)
	b.WriteString("layers:\n")
	for name := range (&job.LayerSources{}).Named() {
		write(name, "  ", name)
	}
	b.WriteString("  areas:\n")
	for _, d := range all {
		if area, ok := strings.CutPrefix(d.layer, namedArea+"."); ok && !written[d.layer] {
			write(d.layer, "    ", area)
		}
	}
	return b.String()
}

// system is the coordinate system of a file in no degrees that would bring it nearest to the
// others, as a key of the job; empty for degrees, or if none does.
func (d *drafted) system(extent orb.Bound) string {
	if d.found.Extent != nil || d.found.stray.IsEmpty() {
		return ""
	}
	fits := crs.Meeting(d.found.stray, extent)
	if len(fits) == 0 {
		return ""
	}
	return fmt.Sprintf(", crs: EPSG:%d", fits[0].Code)
}

// writeStations offers the water levels of tables that are tide stations.
func writeStations(b *strings.Builder, files job.Files, tables []string) {
	var stations []string
	for _, name := range tables {
		if station(files, name) {
			stations = append(stations, strconv.Quote(name))
		}
	}
	if len(stations) > 0 {
		fmt.Fprintf(b, "levels: {stations: [%s]} # tide stations; state the accuracy of their datums\n", strings.Join(stations, ", "))
	}
}

// station reports whether a file is of a tide station.
func station(files job.Files, name string) bool {
	in, err := files.Open(name)
	if err != nil {
		return false
	}
	defer in.Close()
	text, err := levels.ReadText(in)
	if err != nil {
		return false
	}
	_, err = levels.ReadStation(text)
	return err == nil
}

// remarks are what is still to be stated of a file, in one line.
func (d *drafted) remarks(extent orb.Bound) string {
	in := d.found
	var parts []string
	add := func(format string, args ...any) { parts = append(parts, fmt.Sprintf(format, args...)) }
	if d.unfit != "" {
		add("%s", d.unfit)
	}
	add("%s (%s)", job.Count(in.Features, "feature"), counts(in.Types))
	if in.Page != "" {
		add("one page of a longer layer: fetch all of it")
	}
	if n := in.Unusable + d.others(); n > 0 {
		add("%d cannot be used: see inspect", n)
	}
	if in.Extent == nil && !in.stray.IsEmpty() {
		text := "no degrees: give its crs"
		if systems := layers.Fitting(in.stray, extent); systems != "" {
			text = "no degrees: its crs is guessed, so make sure of it; it would meet the others as " + systems
		}
		add("%s", text)
	}
	name := d.layer
	if name == "" {
		return text.Visible(strings.Join(parts, "; "))
	}
	if layers.Usable(name) && !slices.ContainsFunc(in.Properties, func(p PropertySeen) bool { return p.Name == "accuracy_ft" }) {
		add("state its accuracy")
	}
	switch {
	case name == "high_water" || name == "low_water":
		add("its datum, epoch and date")
	case name != "proposals" && layers.Surveyable(name):
		if d.surveyed == "" {
			add("where it was surveyed")
		}
		add("its date")
	}
	return text.Visible(strings.Join(parts, "; "))
}

// others is how many usable features are of a geometry that the layer cannot hold.
func (d *drafted) others() int {
	n := 0
	for geometry, count := range d.found.Types {
		layer, _, _ := strings.Cut(d.layer, ".")
		if layer != "" && !takes(layer, map[string]bool{strings.TrimPrefix(geometry, "Multi"): true}) {
			n += count
		}
	}
	return n
}
