package site

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// coverage is what a layer answers for at a site.
type coverage struct {
	l     *layers.Layer
	Reach float64  // how far round the footprint it is complete: the search radius, or less where its surveyed area ends sooner
	lacks []string // why something of it may be missing all the same
	why   string   // why it does not answer here at all; empty if it does

	left   string  // what near here may belong to the layer as well: features that only leaves out, areas that had to be rebuilt
	leftAt float64 // how near it lies at least, metres
}

// lacking is a value of a layer of which something may be missing: what is missing could
// make it worst. What only leaves out could, where it lies so near.
func (c coverage) lacking(v rules.Value, worst float64) rules.Value {
	for _, says := range c.lacks {
		v.Also = append(v.Also, rules.Also{Number: worst, Says: says})
	}
	if c.left != "" {
		v.Also = append(v.Also, rules.Also{Number: math.Max(worst, c.leftAt), Says: c.left})
	}
	return v
}

// leftNear sets how near features lie which only leaves out, and of which nobody says that
// they are another thing, and areas that were not valid as drawn, which may have been meant
// to hold all that they were drawn round.
func (c *coverage) leftNear(s *Site) {
	c.leftAt = math.Inf(1)
	to := func(bound orb.Bound) float64 {
		box := bound.ToRing()
		for i, at := range box {
			box[i] = s.Footprint.Plane.Forward(at)
		}
		return s.Footprint.ToArea(box)
	}
	for _, r := range c.l.Repairs {
		if !r.Bound.Intersects(s.Window) {
			continue
		}
		if d := to(r.Bound); d < c.leftAt {
			c.leftAt, c.left = d, fmt.Sprintf("%s of %s is not valid as drawn, and what of it is meant had to be guessed: correct it", r.Label, c.l.Title)
		}
	}
	near := map[string]int{}
	for _, p := range c.l.Left.Places {
		if p.Bound.Intersects(s.Window) {
			c.leftAt = math.Min(c.leftAt, to(p.Bound))
			near[p.Value]++
		}
	}
	if len(near) > 0 {
		c.left = fmt.Sprintf("features of %s near here are left out by only, by their %s: %s; say by others whether they are another thing", c.l.Title, c.l.Source.Only.From, layers.MostFrequent(near, job.MostNamed))
	}
}

// Doubted is a value that what is missing could make anything.
func (c coverage) Doubted(v rules.Value) rules.Value {
	for _, says := range c.lacks {
		v = Doubting(v, says, 0)
	}
	return v
}

// surveyedSlack is how far waterward of mean high water, in metres (5 ft), the surveyed
// area of what lives in the water may end and still end at the shore (common practice, no
// source: surveys of the two seldom meet exactly).
const surveyedSlack = 5 * job.Foot

// reachedBy reports whether anything of the layer lies as near as is looked.
func (s *Site) reachedBy(l *layers.Layer) bool {
	b, ok := l.Geo.Bound()
	return ok && b.Intersects(s.Window)
}

// covered says what a layer answers for round the footprint.
func (s *Site) covered(l *layers.Layer) coverage {
	if v, bad := s.incomplete(); bad {
		return coverage{why: v.Unknown}
	}
	if why := s.defect(l); why != "" {
		return coverage{why: why}
	}
	on := coverage{l: l, Reach: s.Radius, lacks: l.Incomplete}
	on.leftNear(s)
	switch {
	case l.Surveyed != nil:
		on.Reach, on.why = s.surveyed(l)
	case l.Source.None:
	case !s.reachedBy(l):
		on.why = "the layer of " + l.Title + " does not reach this site"
	default:
		on.lacks = append(on.lacks[:len(on.lacks):len(on.lacks)],
			fmt.Sprintf("no surveyed area is stated for %s, so that all of it is mapped here is only assumed: state where it was surveyed", l.Title))
	}
	return on
}

// surveyed is how far round the footprint the surveyed area of a layer goes, or why the
// site is not in it.
func (s *Site) surveyed(l *layers.Layer) (reach float64, why string) {
	depth, inside := s.Footprint.DepthInside(l.Surveyed, s.Near(l.Surveyed), nil, 0)
	if l.LiesInWater() && !(depth >= s.Radius) {
		if s.Faced == nil {
			s.Faced, _ = s.Near(s.Layers.Layer("high_water").Geo).FaceWater(s.WaterEvidence("high_water"))
		}
		depth, inside = s.Footprint.DepthInside(l.Surveyed, s.Near(l.Surveyed), s.Faced, surveyedSlack)
	}
	off := s.datumShift(l.SurveyedOn) + l.SurveyedGrain
	switch {
	case inside && depth > off:
		return math.Min(s.Radius, depth-off), ""
	case inside:
		return 0, "the site lies " + job.FeetText(depth) + " inside the surveyed area of " + l.Title + ", which by its horizontal datum or its digits may lie " + job.FeetText(off) + " off"
	}
	own, found := l.Geo.Bound()
	if survey, ok := l.Surveyed.Bound(); found && ok && !survey.Intersects(own) {
		return 0, "the site is not inside the surveyed area of " + l.Title + ", which lies apart from the layer too: have it surveyed, or, if the two should meet, see to their coordinate systems (crs in the job holds for both)"
	}
	return 0, "the site is not inside the surveyed area of " + l.Title + "; have it surveyed"
}
