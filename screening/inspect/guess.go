package inspect

import (
	"cmp"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/rules"
	"waterward/screening/layers"
)

// guesses tell a layer by words in the name of its file, the surest first.
var guesses = []struct {
	layer string
	words []string
}{
	{"proposals", []string{"proposal", "proposed", "application", "applicant", "intake", "breakwater"}},
	{"low_water", []string{"mlw", "low water", "lowwater"}},
	{"high_water", []string{"mhw", "high water", "highwater", "shoreline", "coastline"}},
	{"wetlands", []string{"wetland", "marsh", "mangrove"}},
	{"seagrass", []string{"seagrass", "grass", "sav"}},
	{"shoreline", []string{"land", "landmask", "upland", "shoreline", "coastline"}},
	{"channels", []string{"channel", "fairway"}},
	{"riparian", []string{"riparian"}},
	{"parcels", []string{"parcel", "lot"}},
	{namedArea, []string{"oyster"}}, // natural, or a lease
	{"proposals", []string{"reef"}},
}

// namedArea stands for the area layer that has the name of its file.
const namedArea = "areas"

// holds are the geometries of a file, of the features that can be used if there are any.
func (in *Inspection) holds() map[string]bool {
	of := in.Types
	if len(of) == 0 {
		of = in.broken
	}
	out := map[string]bool{}
	for geometry := range of {
		if geometry = strings.TrimPrefix(geometry, "Multi"); slices.Contains([]string{"Polygon", "LineString", "Point"}, geometry) {
			out[geometry] = true
		}
	}
	return out
}

// takes reports whether a layer can hold one of these geometries; what is not known may
// be any.
func takes(layer string, holds map[string]bool) bool {
	kind := layers.LayerKinds[layer]
	return len(holds) == 0 || layer == "proposals" || holds["Polygon"] && (kind.Areas || layer == namedArea) || holds["LineString"] && kind.Lines
}

// drafted is one file of a draft.
type drafted struct {
	file     string
	words    string // of its name
	found    *Inspection
	layer    string // which it seems to be; empty: none
	sureness int    // of its name, less is surer
	surveyed string // the file that says where it was surveyed
	unfit    string // why it is no layer
}

// covering are words in the names of files that say where a layer was surveyed. One that
// is a survey may as well be the layer.
var covering = []string{"coverage", "covered", "mapped", "surveyed", survey}

const survey = "survey"

// What a file is worth to a layer, the best first.
const (
	usable  = iota
	mending // it can be used once its system is stated, or all of it fetched
	useless
)

func (d *drafted) worth() int {
	switch {
	case d.found.Extent != nil && d.found.Page == "":
		return usable
	case d.found.Extent != nil || !d.found.stray.IsEmpty():
		return mending
	}
	return useless
}

// stem is the name of a file without its folder and endings.
func stem(file string) string {
	base, _, _ := strings.Cut(path.Base(strings.ReplaceAll(file, `\`, "/")), ".")
	return base
}

// notLetters part the words of a name, notPlain the parts of the name of an area.
var (
	notLetters = regexp.MustCompile(`[^a-z]+`)
	notPlain   = regexp.MustCompile(`[^a-z0-9]+`)
)

// nameWords are the words of the name of a file, in lower case and with blanks between.
func nameWords(file string) string {
	return strings.TrimSpace(notLetters.ReplaceAllString(layers.Spaced(stem(file)), " "))
}

// areaName is the name of a file made one that an area can have.
func areaName(file string) string {
	return cmp.Or(strings.Trim(notPlain.ReplaceAllString(strings.ToLower(stem(file)), "_"), "_"), "area")
}

// hasWords finds one word, or several in a row, among others, in the singular or the
// plural.
func hasWords(among, words string) bool {
	among = " " + among + " "
	return slices.ContainsFunc([]string{"", "s", "es"}, func(end string) bool { return strings.Contains(among, " "+words+end+" ") })
}

// telling are properties that proposals have and the features of layers seldom do, and
// words in the names of such.
var (
	telling      = []string{"kind", "material", "crest_elev_ft", "bed_elev_ft", "crest_width_ft", "diameter_ft", "side_slope", "fill", "started", "alternative", "project"}
	tellingWords = []string{"crest", "breakwater", "sill", "applicant", "application", "proposed", "toe"}
)

// proposed reports whether the features are proposals by their properties: two that tell.
func (in *Inspection) proposed() bool {
	n := 0
	for _, p := range in.Properties {
		words := strings.TrimSpace(notLetters.ReplaceAllString(layers.Spaced(p.Name), " "))
		if slices.ContainsFunc(telling, func(name string) bool { return rules.SameWord(name, p.Name) }) ||
			slices.ContainsFunc(tellingWords, func(w string) bool { return hasWords(words, w) }) {
			n++
		}
	}
	return n >= 2
}

// guess says which layer a file seems to be.
func guess(file string, found *Inspection) *drafted {
	d := &drafted{file: file, words: nameWords(file), found: found, layer: namedArea}
	holds := found.holds()
	for _, g := range guesses {
		at := slices.IndexFunc(g.words, func(w string) bool { return hasWords(d.words, w) })
		if at < 0 {
			continue
		}
		d.layer, d.sureness = g.layer, at
		if takes(g.layer, holds) {
			break
		}
	}
	if d.layer == namedArea && found.proposed() {
		d.layer = "proposals"
	}
	if !takes(d.layer, holds) {
		d.unfit = "no layer that its name may mean can hold " + strings.Join(slices.Sorted(maps.Keys(holds)), " or ")
		d.layer = ""
	}
	if d.layer == namedArea {
		d.layer += "." + areaName(file)
	}
	return d
}

// cover pairs the files that say where a layer was surveyed with that layer.
func cover(all []*drafted) {
	for _, word := range slices.Backward(covering) { // the weakest first: it may be a layer of its own
		for _, d := range all {
			if d.layer == "" || !hasWords(d.words, word) || !maps.Equal(d.found.holds(), map[string]bool{"Polygon": true}) {
				continue
			}
			if of := d.covers(word, all); of != nil {
				of.surveyed, d.layer = d.file, ""
			} else if word != survey {
				d.layer, d.unfit = "", "by its name it says where a layer was surveyed: give it as surveyed to the layers it is of"
			}
		}
	}
}

// covers is the file whose survey another is: of the same name but for the word that
// says so or, unless the word may also mean the layer itself, of the same layer.
func (d *drafted) covers(word string, all []*drafted) *drafted {
	rest := strings.Join(strings.Fields(strings.Replace(" "+d.words+" ", " "+word+" ", " ", 1)), " ")
	var alike *drafted
	for _, of := range all {
		switch {
		case of == d || of.layer == "" || of.surveyed != "" || of.worth() == useless:
		case of.words == rest:
			return of
		case alike == nil && word != survey && of.layer == d.layer && !strings.HasPrefix(d.layer, namedArea):
			alike = of
		}
	}
	return alike
}

// extentOf is the bound of the files whose coordinates are known to be degrees.
func extentOf(all []*drafted) orb.Bound {
	out := layers.EmptyBound
	for _, d := range all {
		if d.found.Extent != nil {
			out = out.Union(d.found.bound())
		}
	}
	return out
}
