package screening

import (
	"fmt"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/geo/geojson"
	"waterward/rules"
)

// site is one proposal among what is mapped round it: the measures that rule
// books ask for, and the witness lines behind them.
type site struct {
	p        *proposal
	fp       *geo.Footprint
	together *geo.Footprint // with the parts of its project that adjoin it; nil if none does
	layers   *mapped
	radius   float64
	window   orb.Bound // degrees, radius round the footprint
	values   map[string]rules.Value
	notices  []string
	doubts   []string // what keeps any decision from being firm
	drawn    []witness
	lines    map[*geo.Layer]*geo.Lines // what near has carried into the plane
	reaches  map[*geo.Lines]geo.Reach  // what nearestOn has measured

	faced     *geo.Lines // the high water line near, faced to the water; nil if not looked for
	bank      *geo.Bank  // home bank on the high water line, nil if unknown
	occupied  []geo.Stretch
	low       *geo.Bank // the low water line along it
	twoShores bool      // another is nearer to part of the structure than the bank
	unclear   string    // why another high water line near here cannot be placed, if one cannot
	parcels   []string
	growth    growth             // of oysters
	asPlaced  map[string]float64 // measures of the mound before it settles, SI
}

// witness is the line between the two points a distance was measured between,
// in the plane.
type witness struct {
	measure  string
	from, to orb.Point
	layer    string
	feature  string
}

// bareSite is a site of which nothing is measured yet.
func bareSite(p *proposal, layers *mapped, radius float64) *site {
	return &site{
		p: p, fp: p.footprint, layers: layers, radius: radius,
		window: crs.Window(p.feature.Geometry.Bound(), radius),
		values: map[string]rules.Value{}, lines: map[*geo.Layer]*geo.Lines{}, doubts: p.doubts[:len(p.doubts):len(p.doubts)],
	}
}

// newSite measures a proposal. project is nil if it is alone in its own.
func newSite(p *proposal, layers *mapped, project *project, radius float64) *site {
	s := bareSite(p, layers, radius)
	s.rebuilt()
	s.stated()
	s.lengths()
	s.tidal()
	s.vertical()
	s.seagrass()
	s.channels()
	s.wetlands()
	s.ofProject(project)
	s.neighbours(project)
	for _, a := range layers.areas {
		s.namedArea(a)
	}
	s.placing()
	return s
}

// Measure makes a site the facts a book decides on.
func (s *site) Measure(ref rules.Ref) rules.Value {
	if v, ok := s.ofOpenings(ref); ok {
		return v
	}
	if v, ok := s.values[ref.Measure]; ok {
		return s.unsure(s.doubted(v, ref.MaxAge))
	}
	return unknown("nothing mapped answers %s; add the layer to the job", ref.Measure)
}

// Doubts are what keeps any decision on the proposal from being firm.
func (s *site) Doubts() []string { return s.doubts }

// near is what of a layer lies within the window, in the plane of the site.
func (s *site) near(l *geo.Layer) *geo.Lines {
	if s.lines[l] == nil {
		s.lines[l] = l.Near(s.fp.Plane, s.window)
	}
	return s.lines[l]
}

// nearestOn is the least distance to some lines, which is asked more than once.
func (s *site) nearestOn(lines *geo.Lines) geo.Reach {
	r, known := s.reaches[lines]
	if !known {
		r = s.fp.Nearest(lines)
		if s.reaches == nil {
			s.reaches = map[*geo.Lines]geo.Reach{}
		}
		s.reaches[lines] = r
	}
	return r
}

func unknown(format string, args ...any) rules.Value {
	return rules.Value{Unknown: fmt.Sprintf(format, args...)}
}

func (s *site) notice(format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	for _, n := range s.notices {
		if n == text {
			return
		}
	}
	s.notices = append(s.notices, text)
}

// incomplete is the value of measures of a footprint that is not known.
func (s *site) incomplete() (rules.Value, bool) {
	return unknown("%s", s.fp.Incomplete), s.fp.Incomplete != ""
}

// lengths sets the measures that need no map.
func (s *site) lengths() {
	s.values["element_length"] = rules.Value{Number: s.fp.Length(), Accuracy: s.ofLengths()}
	s.values["footprint_area"] = rules.Value{Number: s.fp.Area, PerMetre: s.fp.Perimeter(), Accuracy: s.ofLengths()}
	s.values["overall_length"] = rules.Value{Number: s.fp.OverallLength(), Accuracy: s.ofLengths()}
	// Where there is no opening none is too narrow.
	s.values["narrowest_opening"] = rules.Value{Number: s.radius, Bound: rules.MoreThan, Detail: "one element, no opening"}
	if links := s.fp.Links; len(links) > 0 {
		s.values["narrowest_opening"] = rules.Value{Number: links[0].Width, Accuracy: s.ofLengths()}
		s.draw("narrowest_opening", links[0].From, links[0].To, "", "")
	}
	if v, bad := s.incomplete(); bad {
		s.values["footprint_area"] = v
		if len(s.fp.Links) > 0 { // the clear widths hang on the width
			s.values["overall_length"], s.values["narrowest_opening"] = v, v
		}
	}
}

func (s *site) draw(measure string, from, to orb.Point, layer, feature string) {
	s.drawn = append(s.drawn, witness{measure, from, to, layer, feature})
}

// unplaceable returns why no book can decide on a proposal although it can be
// measured: it lies on land, where a small distance from the water's edge would
// read as an easy path, or it is drawn with latitude and longitude swapped.
func (s *site) unplaceable() error {
	wrong := &geojson.FeatureError{File: s.p.file, Number: s.p.feature.Number, ID: s.p.feature.ID}
	far, near := s.values["mhw_farthest"], s.values["mhw_nearest"]
	landward := 0.0
	if far.Unknown == "" && near.Number < 0 {
		landward = s.bank.Landward(s.fp)
	}
	if landward > 0.5 && far.Number > 0 {
		wrong.Wrong = fmt.Sprintf("it is drawn mostly landward of mean high water: %.0f %% of it, up to %s from the line", 100*landward, feetText(-near.Number))
		wrong.Remedy = "draw what lies in the water, or correct the line"
		return wrong
	}
	if far.Unknown == "" && far.Number <= 0 {
		wrong.Wrong = fmt.Sprintf("it is drawn landward of mean high water, %s to %s from it", feetText(-far.Number), feetText(-near.Number))
		wrong.Remedy = "draw it in the water, or correct the side of the line"
		return wrong
	}
	shore, ok := s.layers.layer("high_water").geo.Bound()
	if ok && !shore.Intersects(s.window) && crs.Window(shore, s.radius).Intersects(swap(s.p.feature.Geometry.Bound())) {
		wrong.Wrong = "it lies nowhere near the layers, and would with latitude and longitude swapped"
		wrong.Remedy = "put longitude first in every position"
		return wrong
	}
	return nil
}

// crossed gives notice of places near the site where the tidal lines cross.
func (s *site) crossed() {
	n := 0
	for _, p := range s.layers.crossing {
		if s.window.Contains(p) {
			n++
		}
	}
	if n > 0 {
		s.notice("the lines of mean high and of mean low water cross near here (%d times within %s); check both layers", n, feetText(s.radius))
	}
}

// doubtProject doubts what is added up over the proposals of a project.
func (s *site) doubtProject(format string, args ...any) {
	for _, measure := range []string{"project_length", "project_bank_length"} {
		s.values[measure] = doubting(s.values[measure], fmt.Sprintf(format, args...), 0)
	}
}
