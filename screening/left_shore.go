package screening

import (
	"fmt"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
)

// leftShore are lines of a shoreline product that the job leaves out of mean high water
// and that are shore all the same: marsh edges, walls. Where one lies near, the mean high
// water line is not all of the shore.
type leftShore struct {
	builder geo.LayerBuilder
	lines   *geo.Layer
	kinds   []string // what each is called
}

var (
	// noShore are lines that no shore is.
	noShore = ofWords(`(mean )?low ?water`, `mlwl?\d*`, `(mean )?lower low ?water`, `mllwl?\d*`, `mean (sea|tide) level`, `msl\d*`, `mtl\d*`,
		`contours?`, `isobaths?`, `depth( curves?)?`, `(data|survey) limits?`, `limits? of (the )?(source )?(data|survey)`, `data ?limit`,
		`breakers?`, `piers?`, `docks?`, `groins?`, `jetty`, `jetties`, `breakwaters?`, `centerlines?`, `centrelines?`)
	// someShore are words by which a line is a shore whatever a job calls it.
	someShore = ofWords(`apparent`, `marsh`, `mangroves?`, `swamp`, `vegetation`, `banks?`, `shore(line)?s?`, `bulkheads?`, `sea ?walls?`, `rip ?rap`,
		`revetments?`, `natural`, `man ?made`, `high ?water`, `beach(es)?`, `bluffs?`, `canals?`)
)

// isShore reports whether what only leaves out for a value is shore: unless its words, or
// the job by name, say that it is none.
func (o *Only) isShore(value string) bool {
	words := spaced(value)
	return !noShore.MatchString(words) && (someShore.MatchString(words) || !hasWord(o.Others, oneWord(value)))
}

// leaveShoreOut keeps a line that is left out of mean high water and is shore.
func (l *layer) leaveShoreOut(f *geo.Feature, value string) {
	if l.name != "high_water" || f.Err != nil || !l.source.Only.isShore(value) || l.places != nil && !l.places.Meet(f.Bound()) {
		return
	}
	var lines []orb.LineString
	switch g := f.Geometry.(type) {
	case orb.LineString, orb.MultiLineString:
		lines = linesOf(g)
	case orb.Polygon, orb.MultiPolygon:
		for _, polygon := range areaOf(g) {
			for _, ring := range polygon {
				lines = append(lines, orb.LineString(ring))
			}
		}
	}
	if lines = slices.DeleteFunc(slices.Clone(lines), isPoint); len(lines) > 0 {
		l.shore.builder.AddLine(lines...)
		l.shore.kinds = append(l.shore.kinds, value)
	}
}

// otherShore is shore near the site that is no part of the mean high water line.
type otherShore struct {
	off  float64 // metres from the footprint
	what string
}

// landInWater is how far waterward of mean high water, in metres (30 ft), land of the
// shoreline layer must lie for it to be land of which the line is missing: surveys of the
// two seldom meet.
const landInWater = 30 * foot

// otherShores are what the job leaves out of the mean high water line although it is
// shore, and land of the shoreline layer in what the line says is water.
func (s *site) otherShores() []otherShore {
	var out []otherShore
	if l := s.layers.layer("high_water"); l.shore.lines != nil {
		if near := s.near(l.shore.lines); !near.Empty() {
			r := s.fp.Nearest(near)
			out = append(out, otherShore{r.Distance, fmt.Sprintf("shore of another kind (%.40q), which the job leaves out of the mean high water line, lies %s off", l.shore.kinds[near.Item(r.Foot)], feetText(r.Distance))})
		}
	}
	l := s.layers.layer("shoreline")
	if l == nil || s.faced.Empty() {
		return out
	}
	outlines := s.near(l.geo).OnlyItems(func(item int) bool { return l.geo.Items[item].Area != nil })
	inWater := outlines.WaterwardOf(s.faced, landInWater, false)
	if s.fp.OnAreas(l.geo) && !(s.values["mhw_farthest"].Number <= landInWater) {
		out = append(out, otherShore{0, "by the shoreline layer it stands on land, and by the mean high water line in the water"})
	} else if !inWater.Empty() {
		r := s.fp.Nearest(inWater)
		if r.Distance > s.radius { // of which no more is looked at than its near side
			return out
		}
		out = append(out, otherShore{r.Distance, fmt.Sprintf("land of the shoreline layer (%s), of which no mean high water line is mapped, lies %s off", l.items[inWater.Item(r.Foot)].label, feetText(r.Distance))})
	}
	return out
}

// besideOtherShore makes what hangs on the shore unknown where other shore lies
// nearer than the mean high water line does to any part of the structure, and what hangs
// on the width of the water where it lies nearer than the shore across.
func (s *site) besideOtherShore() {
	for _, o := range s.otherShores() {
		why := unknown("%s: see which of them the authority measures from", o.what)
		if far := s.values["mhw_farthest"]; far.Unknown == "" && o.off <= far.Number {
			for _, measure := range ofBank {
				s.values[measure] = why
			}
			s.bank, s.low, s.occupied = nil, nil, nil
		}
		if width := s.values["waterway_width"]; width.Unknown == "" && (width.Bound == rules.MoreThan || o.off < width.Number) {
			s.values["waterway_width"], s.values["waterway_share"] = why, why
		}
	}
}

// ofBank are the measures that hang on which shore the structure belongs to.
var ofBank = []string{
	"mhw_farthest", "mhw_nearest", "mhw_landward_edge", "mlw_farthest", "mlw_nearest", "mlw_landward_edge",
	"bank_length", "longest_overlap",
}
