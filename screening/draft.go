package screening

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
)

// guesses tell a layer by a word in the name of its file, the surest first.
var guesses = []struct {
	layer string
	words []string
	lines bool // it can be lines
	areas bool // it can be areas
}{
	{"proposals", []string{"propos", "applic", "intake", "reef", "breakwater"}, true, true},
	{"low_water", []string{"mlw", "low_water", "lowwater"}, true, false},
	{"high_water", []string{"mhw", "high_water", "highwater", "shoreline", "coastline"}, true, false},
	{"wetlands", []string{"wetland", "marsh", "mangrove"}, false, true},
	{"shoreline", []string{"land", "shoreline"}, false, true},
	{"seagrass", []string{"grass", "sav"}, false, true},
	{"channels", []string{"channel", "fairway"}, true, true},
	{"riparian", []string{"riparian"}, true, false},
	{"parcels", []string{"parcel", "lots"}, false, true},
}

// drafted is one file of a draft.
type drafted struct {
	layer, file string // no layer: it says where another was surveyed
	found       *Inspection
}

// DraftJob writes a job for files that nobody has sorted yet: which layer each
// seems to be, by its name and geometry, with what is still to be stated. It is a
// draft to be read and corrected, and says so. A file that cannot be read is named
// in a remark.
func DraftJob(files Files, names []string) string {
	var all []drafted
	var unread []string
	for _, name := range names {
		found, err := Inspect(files, name, System{})
		if err != nil {
			unread = append(unread, plainText(err.Error()))
			continue
		}
		all = append(all, guess(name, found))
	}
	surveys := coverage(all)
	var b strings.Builder
	b.WriteString("# A draft: which layer each file is has been guessed from its name and geometry.\n" +
		"# Read every line, state what is asked for, and take out what is wrong.\n" +
		"decision_date: # the day whose rules decide, such as 2026-11-25\n" +
		"books: [] # see: waterward rules list\n")
	for _, text := range unread {
		fmt.Fprintf(&b, "# not read: %s\n", text)
	}
	extent := placed(all)
	written := map[string]bool{}
	write := func(d drafted, indent string) {
		if written[d.layer] { // a choice for who knows the files, or several of one layer
			indent = "# or: " + strings.TrimLeft(indent, " ")
		}
		written[d.layer] = true
		fmt.Fprintf(&b, "%s{file: %q", indent, d.file)
		if survey := surveys[d.file]; survey != "" {
			fmt.Fprintf(&b, ", surveyed: %q", survey)
		}
		b.WriteString("} # " + d.remarks(extent, surveys[d.file] != "") + "\n")
	}
	for _, d := range all {
		if d.layer == "proposals" {
			write(d, "proposals: ")
		}
	}
	b.WriteString("layers:\n")
	for name := range (&LayerSources{}).named() {
		for _, d := range all {
			if d.layer == name {
				write(d, "  "+name+": ")
			}
		}
	}
	b.WriteString("  areas:\n")
	for _, d := range all {
		if area, ok := strings.CutPrefix(d.layer, "areas."); ok {
			write(d, "    "+area+": ")
		}
	}
	return b.String()
}

// guess says which layer a file seems to be.
func guess(name string, found *Inspection) drafted {
	base := strings.ToLower(path.Base(strings.ReplaceAll(name, `\`, "/")))
	lines := found.Types["LineString"]+found.Types["MultiLineString"] > 0
	areas := found.Types["Polygon"]+found.Types["MultiPolygon"] > 0
	d := drafted{file: name, found: found}
	if slices.ContainsFunc([]string{"survey", "coverage", "mapped"}, func(w string) bool { return strings.Contains(base, w) }) {
		return d // of another layer
	}
	for _, g := range guesses {
		for _, w := range g.words {
			if strings.Contains(base, w) && (lines && g.lines || areas && g.areas || !lines && !areas) {
				d.layer = g.layer
				return d
			}
		}
	}
	d.layer = "areas." + areaName(base)
	return d
}

// areaName makes the name of a file one that an area can have.
func areaName(base string) string {
	base, _, _ = strings.Cut(base, ".")
	name := strings.Map(func(c rune) rune {
		if c >= 'a' && c <= 'z' || c >= '0' && c <= '9' {
			return c
		}
		return '_'
	}, base)
	return cmp.Or(strings.Trim(name, "_"), "area")
}

// coverage pairs the files that say where a layer was surveyed with the layer of
// the same name.
func coverage(all []drafted) map[string]string {
	out := map[string]string{}
	for _, d := range all {
		if d.layer != "" {
			continue
		}
		of, _, _ := strings.Cut(areaName(strings.ToLower(path.Base(d.file))), "_survey")
		for _, o := range all {
			if o.layer != "" && areaName(strings.ToLower(path.Base(o.file))) == of {
				out[o.file] = d.file
			}
		}
	}
	return out
}

// placed is the bound of the files whose coordinates are known to be degrees.
func placed(all []drafted) orb.Bound {
	out := orb.Bound{Min: orb.Point{1, 1}, Max: orb.Point{-1, -1}}
	for _, d := range all {
		if e := d.found.Extent; e != nil {
			out = out.Union(orb.Bound{Min: orb.Point{e[0], e[1]}, Max: orb.Point{e[2], e[3]}})
		}
	}
	return out
}

// remarks are what is still to be stated of a file, in one line.
func (d *drafted) remarks(extent orb.Bound, surveyed bool) string {
	in := d.found
	parts := []string{fmt.Sprintf("%d features (%s)", in.Features, counts(in.Types))}
	if in.Unusable > 0 {
		parts = append(parts, fmt.Sprintf("%d cannot be used: see inspect", in.Unusable))
	}
	if in.Extent == nil && !in.stray.IsEmpty() {
		var fits []string
		for _, c := range geo.CRSMeeting(in.stray, extent) {
			fits = append(fits, c.String())
		}
		text := "no degrees: give its crs"
		if len(fits) > 0 {
			text += ", perhaps " + strings.Join(fits[:min(len(fits), mostSystems)], " or ")
		}
		parts = append(parts, text)
	}
	if d.layer != "parcels" && d.layer != "shoreline" && !slices.ContainsFunc(in.Properties, func(p PropertySeen) bool { return p.Name == "accuracy_ft" }) {
		parts = append(parts, "state its accuracy")
	}
	switch d.layer {
	case "high_water", "low_water":
		parts = append(parts, "its datum, epoch and date")
	case "proposals", "parcels", "shoreline":
	default:
		if !surveyed {
			parts = append(parts, "where it was surveyed")
		}
		parts = append(parts, "its date")
	}
	return plainText(strings.Join(parts, "; "))
}
