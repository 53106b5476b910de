package site

import (
	"fmt"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/geo/geojson"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// Site is one proposal among what is mapped round it: the measures that rule
// books ask for, and the witness lines behind them.
type Site struct {
	Proposal  *Proposal
	Footprint *geo.Footprint
	Whole     *Whole // with the proposals of its project that adjoin it; nil if none does
	Layers    *layers.Set
	Radius    float64
	Window    orb.Bound // degrees, radius round the footprint
	Values    map[string]rules.Value
	Notices   []string
	Unsettled []string // what keeps any decision from being firm
	witnesses []witness
	Lines     map[*geo.Layer]*geo.Lines // what near has carried into the plane
	reaches   map[*geo.Lines]geo.Reach  // what nearestOn has measured

	Faced     *geo.Lines // the high water line near, faced to the water; nil if not looked for
	Bank      *geo.Bank  // home bank on the high water line, nil if unknown
	Occupied  []geo.Stretch
	Low       *geo.Bank // the low water line along it
	twoShores bool      // another is nearer to part of the structure than the bank
	Unclear   string    // why another high water line near here cannot be placed, if one cannot
	Parcels   []string
	Growth    growth             // of oysters
	asPlaced  map[string]float64 // measures of the mound before it settles, SI
}

// Bare is a site of which nothing is measured yet.
func Bare(p *Proposal, mapped *layers.Set, radius float64) *Site {
	return &Site{
		Proposal: p, Footprint: p.Footprint, Layers: mapped, Radius: radius,
		Window: crs.Window(p.Of.Bound(), radius),
		Values: map[string]rules.Value{}, Lines: map[*geo.Layer]*geo.Lines{}, Unsettled: p.doubts[:len(p.doubts):len(p.doubts)],
	}
}

// New measures a proposal. project is nil if it is alone in its own.
func New(p *Proposal, mapped *layers.Set, project *Project, radius float64) *Site {
	s := Bare(p, mapped, radius)
	s.rebuilt()
	s.Stated()
	s.Lengths()
	s.Tidal()
	s.Vertical()
	s.seagrass()
	s.channels()
	s.wetlands()
	s.OfProject(project)
	s.neighbours(project)
	for _, a := range mapped.Areas {
		s.namedArea(a)
	}
	s.placing()
	return s
}

// Measure makes a site the facts a book decides on.
func (s *Site) Measure(ref rules.Ref) rules.Value {
	if v, ok := s.ofOpenings(ref); ok {
		return v
	}
	if v, ok := s.Values[ref.Measure]; ok {
		return s.unsure(s.doubted(v, ref.MaxAge))
	}
	if area, named := strings.CutPrefix(ref.Measure, "in_area:"); named {
		return Unknown("no layer of %s was given; add layers.areas.%s", area, area)
	}
	return Unknown("nothing mapped answers %s; add the layer to the job", ref.Measure)
}

// Doubts are what keeps any decision on the proposal from being firm.
func (s *Site) Doubts() []string { return s.Unsettled }

// Near is what of a layer lies within the window, in the plane of the site.
func (s *Site) Near(l *geo.Layer) *geo.Lines {
	if s.Lines[l] == nil {
		s.Lines[l] = l.Near(s.Footprint.Plane, s.Window)
	}
	return s.Lines[l]
}

// nearestOn is the least distance to some lines, which is asked more than once.
func (s *Site) nearestOn(lines *geo.Lines) geo.Reach {
	r, known := s.reaches[lines]
	if !known {
		r = s.Footprint.Nearest(lines)
		if s.reaches == nil {
			s.reaches = map[*geo.Lines]geo.Reach{}
		}
		s.reaches[lines] = r
	}
	return r
}

// Unknown is the value of a measure that is not known, with why.
func Unknown(format string, args ...any) rules.Value {
	return rules.Value{Unknown: fmt.Sprintf(format, args...)}
}

// Notice adds what must be seen of the proposal and changes no path.
func (s *Site) Notice(format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	for _, n := range s.Notices {
		if n == text {
			return
		}
	}
	s.Notices = append(s.Notices, text)
}

// incomplete is the value of measures of a footprint that is not known.
func (s *Site) incomplete() (rules.Value, bool) {
	return Unknown("%s", s.Footprint.Incomplete), s.Footprint.Incomplete != ""
}

// Lengths sets the measures that need no map.
func (s *Site) Lengths() {
	s.Values["element_length"] = rules.Value{Number: s.Footprint.Length(), Accuracy: s.ofLengths()}
	s.Values["footprint_area"] = rules.Value{Number: s.Footprint.Area, PerMetre: s.Footprint.Perimeter(), Accuracy: s.ofLengths()}
	s.Values["overall_length"] = rules.Value{Number: s.Footprint.OverallLength(), Accuracy: s.ofLengths()}
	// Where there is no opening none is too narrow.
	s.Values["narrowest_opening"] = rules.Value{Number: s.Radius, Bound: rules.MoreThan, Detail: "one element, no opening"}
	if links := s.Footprint.Links; len(links) > 0 {
		s.Values["narrowest_opening"] = rules.Value{Number: links[0].Width, Accuracy: s.ofLengths()}
	}
	if v, bad := s.incomplete(); bad {
		s.Values["footprint_area"] = v
		if len(s.Footprint.Links) > 0 { // the clear widths hang on the width
			s.Values["overall_length"], s.Values["narrowest_opening"] = v, v
		}
	}
}

// Unplaceable returns why no book can decide on a proposal although it can be
// measured: it lies on land, where a small distance from the water's edge would
// read as an easy path, or it is drawn with latitude and longitude swapped.
func (s *Site) Unplaceable() error {
	wrong := &geojson.FeatureError{File: s.Proposal.Of.From.Name, Number: s.Proposal.Of.Number, ID: s.Proposal.Of.ID}
	far, near := s.Values["mhw_farthest"], s.Values["mhw_nearest"]
	landward := 0.0
	if far.Unknown == "" && near.Number < 0 {
		landward = s.Bank.Landward(s.Footprint)
	}
	if landward > 0.5 && far.Number > 0 {
		wrong.Wrong = fmt.Sprintf("it is drawn mostly landward of mean high water: %.0f %% of it, up to %s from the line", 100*landward, job.FeetText(-near.Number))
		wrong.Remedy = "draw what lies in the water, or correct the line"
		return wrong
	}
	if far.Unknown == "" && far.Number <= 0 {
		wrong.Wrong = fmt.Sprintf("it is drawn landward of mean high water, %s to %s from it", job.FeetText(-far.Number), job.FeetText(-near.Number))
		wrong.Remedy = "draw it in the water, or correct the side of the line"
		return wrong
	}
	shore, ok := s.Layers.Layer("high_water").Geo.Bound()
	if ok && !shore.Intersects(s.Window) && crs.Window(shore, s.Radius).Intersects(layers.Swap(s.Proposal.Of.Bound())) {
		wrong.Wrong = "it lies nowhere near the layers, and would with latitude and longitude swapped"
		wrong.Remedy = "put longitude first in every position"
		return wrong
	}
	if wrong.Wrong, wrong.Remedy = s.adrift(); wrong.Wrong != "" {
		return wrong
	}
	return nil
}

// crossed gives notice of places near the site where the tidal lines cross.
func (s *Site) crossed() {
	n := 0
	for _, p := range s.Layers.Crossing {
		if s.Window.Contains(p) {
			n++
		}
	}
	if n > 0 {
		s.Notice("the lines of mean high and of mean low water cross near here (%d times within %s); check both layers", n, job.FeetText(s.Radius))
	}
}

// DoubtProject doubts what is added up over the proposals of a project.
func (s *Site) DoubtProject(format string, args ...any) {
	for _, measure := range ofProject {
		s.Values[measure] = Doubting(s.Values[measure], fmt.Sprintf(format, args...), 0)
	}
}
