package screening

import (
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
)

// site is one proposal among what is mapped round it: the measures that rule
// books ask for, and the witness lines behind them.
type site struct {
	p       *proposal
	fp      *geo.Footprint
	layers  *mapped
	radius  float64
	window  orb.Bound // degrees, radius round the footprint
	values  map[string]rules.Value
	notices []string
	drawn   []witness
	lines   map[*geo.Layer]*geo.Lines // what near has carried into the plane

	bank     *geo.Bank // home bank on the high water line, nil if unknown
	occupied []geo.Stretch
	low      *geo.Bank // the low water line along it
	unclear  string    // why another high water line near here cannot be placed, if one cannot
	parcels  []string
}

// witness is the line between the two points a distance was measured between,
// in the plane.
type witness struct {
	measure  string
	from, to orb.Point
	layer    string
	feature  string
}

// newSite measures a proposal.
func newSite(p *proposal, layers *mapped, radius float64) *site {
	s := &site{
		p: p, fp: p.footprint, layers: layers, radius: radius,
		window: geo.Window(p.feature.Geometry.Bound(), radius),
		values: map[string]rules.Value{}, lines: map[*geo.Layer]*geo.Lines{},
	}
	s.lost()
	s.stated()
	s.lengths()
	s.tidal()
	s.vertical()
	s.acrossWater()
	s.resources()
	s.neighbours()
	for _, a := range layers.areas {
		s.namedArea(a)
	}
	return s
}

// Measure makes a site the facts a book decides on.
func (s *site) Measure(ref rules.Ref) rules.Value {
	switch ref.Measure {
	case "longest_run":
		return s.longestRun(ref.Opening)
	case "openings":
		return s.openings(ref.Opening)
	}
	if v, ok := s.values[ref.Measure]; ok {
		return v
	}
	return unknown("nothing mapped answers %s; add the layer to the job", ref.Measure)
}

// near is what of a layer lies within the window, in the plane of the site.
func (s *site) near(l *geo.Layer) *geo.Lines {
	if s.lines[l] == nil {
		s.lines[l] = l.Near(s.fp.Plane, s.window)
	}
	return s.lines[l]
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

// lost warns of features that cannot be used and may lie anywhere.
func (s *site) lost() {
	for _, l := range s.layers.all() {
		n := 0
		for _, d := range l.geo.Defects {
			if !d.Known {
				n++
			}
		}
		if n > 0 {
			s.notice("%d features of %s cannot be used and may lie anywhere, here too", n, l.title)
		}
	}
}

// stated sets the measures that are words of the proposal.
func (s *site) stated() {
	word := func(name, text string) {
		if text == "" {
			s.values[name] = unknown("the proposal does not state its %s", name)
			return
		}
		s.values[name] = rules.Value{Word: text}
	}
	word("kind", s.p.kind)
	word("material", s.p.material)
}

// incomplete is the value of measures of a footprint that is not known.
func (s *site) incomplete() (rules.Value, bool) {
	return unknown("%s", s.fp.Incomplete), s.fp.Incomplete != ""
}

// lengths sets the measures that need no map.
func (s *site) lengths() {
	s.values["element_length"] = rules.Value{Number: s.fp.Length()}
	s.values["footprint_area"] = rules.Value{Number: s.fp.Area}
	s.values["overall_length"] = rules.Value{Number: s.fp.OverallLength()}
	s.values["narrowest_opening"] = rules.Value{Detail: "one element, no opening"}
	if links := s.fp.Links; len(links) > 0 {
		s.values["narrowest_opening"] = rules.Value{Number: links[0].Width}
		s.draw("narrowest_opening", links[0].From, links[0].To, "", "")
	}
	if v, bad := s.incomplete(); bad {
		s.values["footprint_area"] = v
		if len(s.fp.Links) > 0 { // the clear widths hang on the width
			s.values["overall_length"], s.values["narrowest_opening"] = v, v
		}
	}
}

func (s *site) longestRun(opening float64) rules.Value {
	if v, bad := s.incomplete(); bad && len(s.fp.Links) > 0 {
		return v
	}
	v := rules.Value{Number: s.fp.LongestRun(opening), Widened: s.fp.LongestRun(0)}
	edge := math.Inf(1)
	for _, l := range s.fp.Links {
		if l.Width < opening {
			v.Narrow = append(v.Narrow, l.Width)
		}
		edge = math.Min(edge, math.Abs(l.Width-opening))
	}
	// An opening within the resolution of the width that counts may be read
	// either way, and with it the run.
	if s.fp.LongestRun(opening-rules.Resolution) != s.fp.LongestRun(opening+rules.Resolution) {
		v.Edge = &edge
	}
	return v
}

func (s *site) openings(opening float64) rules.Value {
	if v, bad := s.incomplete(); bad && len(s.fp.Links) > 0 {
		return v
	}
	n := 0.0
	for _, l := range s.fp.Links {
		if l.Width >= opening {
			n++
		}
	}
	return rules.Value{Number: n}
}

// vertical sets the measures of heights and volumes.
func (s *site) vertical() {
	s.values["crest_above_mhw"] = s.crest()
	volume := s.volume()
	s.values["fill_volume"], s.values["fill_per_length"] = volume, volume
	if volume.Unknown != "" {
		return
	}
	length := s.values["bank_length"]
	switch {
	case length.Unknown != "":
		s.values["fill_per_length"] = length
	case length.Number == 0:
		s.values["fill_per_length"] = unknown("the structure occupies no length of bank")
	default:
		s.values["fill_per_length"] = rules.Value{Number: volume.Number / length.Number}
	}
}

// crest is the crest over mean high water, in one vertical datum or unknown.
func (s *site) crest() rules.Value {
	p := s.p
	switch {
	case math.IsNaN(p.crest):
		return unknown("the proposal states no crest_elev_ft")
	case p.datum == "":
		return unknown("the crest elevation has no datum; state it")
	case strings.EqualFold(p.datum, "MHW"):
		return rules.Value{Number: p.crest}
	case s.bank == nil:
		return unknown("no mean high water line is known here, so neither is its elevation")
	}
	high := s.layers.layer("high_water")
	at := s.bank.Lines.Item(s.fp.Nearest(s.bank.Lines).Foot)
	line := high.items[at]
	switch {
	case math.IsNaN(line.elevation):
		return unknown("the mean high water line %s has no elevation_ft, so a crest in %s cannot be set against it; give a tie, or the crest above MHW", line.label, p.datum)
	case high.source.Datum == "":
		return unknown("the elevation of the mean high water line has no datum; state it in the job")
	case !strings.EqualFold(high.source.Datum, p.datum):
		return unknown("the crest is in %s and the elevation of mean high water in %s; give the crest in %s or above MHW", p.datum, high.source.Datum, high.source.Datum)
	}
	return rules.Value{Number: p.crest - line.elevation, Layer: high.name, Feature: line.label, Date: high.source.Date}
}

// volume is the fill of all elements, each a mound with all sides sloped.
func (s *site) volume() rules.Value {
	p := s.p
	if v, bad := s.incomplete(); bad {
		return v
	}
	height := p.crest - p.bed
	switch {
	case math.IsNaN(height):
		return unknown("the fill needs crest_elev_ft and bed_elev_ft, in one datum")
	case math.IsNaN(p.crestWidth) && math.IsNaN(p.slope):
		return unknown("the fill needs crest_width_ft or side_slope")
	case height <= 0:
		return unknown("the crest is not above the bed")
	}
	sum := 0.0
	for i := range s.fp.Elements {
		e := &s.fp.Elements[i]
		m := mound{length: e.Length, width: e.Length, disc: e.IsDisc()}
		if !m.disc {
			m.width = e.Area() / e.Length
		}
		slope := p.slope
		if math.IsNaN(slope) {
			slope = (m.width - p.crestWidth) / (2 * height)
		}
		if slope < 0 || 2*slope*height > m.width {
			return unknown("crest width, side slope, height and the width of the footprint do not fit one another")
		}
		sum += m.Volume(height, slope)
	}
	return rules.Value{Number: sum}
}

func (s *site) draw(measure string, from, to orb.Point, layer, feature string) {
	s.drawn = append(s.drawn, witness{measure, from, to, layer, feature})
}
