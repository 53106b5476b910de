package envelope

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/geo/flat"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/site"
)

const (
	// lateralExcess is how much farther out than is looked, as a factor, lines
	// between neighbours are drawn, so that they part the water wholly.
	lateralExcess = 2.0
	// aside is the cosine of 45 degrees: a channel that lies farther aside does not front
	// the corner.
	aside = flat.Cos45
)

// ofCorner is how near to the end of a front, in metres (10 ft), a line begins that is its side
// line: one farther along parts others' water. Common practice, no source.
const ofCorner = 10 * job.Foot

// How a riparian line came to be.
const (
	asGiven          = "as given"
	squareToChannel  = "perpendicular to the channel"
	squareToTheTrend = "perpendicular to the general trend of the shore"
)

// lateral is a line between neighbours' water, in the plane, from the shore out.
type lateral struct {
	end    string // of the front: "from" or "to"
	line   []orb.Point
	method string
}

// laterals are the riparian lines at the two ends of a front: those given, or
// constructed where none is.
func (e *Search) laterals(h *shore) []lateral {
	if h.front.Whole {
		return nil
	}
	var out []lateral
	for i, at := range []orb.Point{h.line[0], h.line[len(h.line)-1]} {
		l := lateral{end: []string{"from", "to"}[i]}
		if given := e.Layers.Layer("riparian"); given != nil {
			if h.begins(h.Near(given.Geo), at, ofCorner) {
				l.method = asGiven
				out = append(out, l)
				continue
			}
		}
		l.method, l.line = e.construct(h, at)
		out = append(out, l)
	}
	return out
}

// begins reports whether a line of some comes so near to a corner of the front, and not only with
// its waterward end, as lines do from across narrow water.
func (h *shore) begins(lines *geo.Lines, corner orb.Point, within float64) bool {
	for _, line := range lines.Chains() {
		landward, waterward := line[0], line[len(line)-1]
		if h.Faced.Nearest(landward).Distance > h.Faced.Nearest(waterward).Distance {
			landward, waterward = waterward, landward
		}
		near := geo.NewLines(line).Nearest(corner)
		if near.Distance <= within && (flat.Distance(near.At, waterward) > rules.Resolution || flat.Distance(landward, corner) <= within) {
			return true
		}
	}
	return false
}

// construct draws a riparian line out from a shore corner. Along a channel it is
// the perpendicular from the channel that meets the corner, as 15A NCAC 07H
// .2105(g) describes; elsewhere the perpendicular to the general trend of the
// shore (common practice, no source), also where the channel bends or lies more than 45
// degrees aside. It ends at half the least width of the waterway, or before. It is never a
// survey.
func (e *Search) construct(h *shore, corner orb.Point) (string, []orb.Point) {
	length := lateralExcess * h.reach
	if w := h.widthAt(corner); w.Unknown == "" && w.Bound == rules.Exact {
		length = math.Min(length, w.Number/2)
	}
	t := h.Bank.TrendAt(corner)
	if l := e.Layers.Layer("channels"); l != nil {
		near := h.Near(l.Geo)
		f := near.Nearest(corner)
		ahead := (f.At[1]-corner[1])*t[0] - (f.At[0]-corner[0])*t[1]
		if f.Distance > 0 && f.Distance <= h.Radius && f.OnEdge() && ahead > aside*f.Distance && !h.Bank.LandBetween(corner, f.At) {
			return squareToChannel, []orb.Point{corner, flat.At(corner, f.At, 0, f.Distance, length)}
		}
	}
	return squareToTheTrend, []orb.Point{corner, {corner[0] - length*t[1], corner[1] + length*t[0]}}
}

// walls are the lines that part neighbours' water here, those given and those
// constructed, drawn on, and the middles of narrow water.
func (h *shore) walls(e *Search) [][]orb.Point {
	var out [][]orb.Point
	for _, l := range h.lateral {
		if l.line != nil {
			out = append(out, h.drawnOn(e, l.line))
		}
	}
	out = append(out, h.middles()...)
	given := e.Layers.Layer("riparian")
	if given == nil {
		return out
	}
	near := h.Near(given.Geo)
	for _, line := range near.Chains() {
		if h.Bank.Lines.Nearest(line[0]).Distance > h.Bank.Lines.Nearest(line[len(line)-1]).Distance {
			orb.LineString(line).Reverse()
		}
		out = append(out, h.drawnOn(e, line))
	}
	return out
}

// drawnOn is a line, from the shore out, drawn on straight beyond both of its ends: over the
// water no farther than to the next shore, which it passes by as much as closes it off.
func (h *shore) drawnOn(e *Search, line []orb.Point) []orb.Point {
	n := len(line)
	landward := beyond(line[1], line[0], e.Settings.Tolerance.Metres)
	made := append([]orb.Point{landward}, line...)
	if ashore := h.Bank.Ashore(line[n-1], beyond(line[n-2], line[n-1], lateralExcess*h.reach)); ashore != line[n-1] {
		made = append(made, beyond(line[n-1], ashore, closing))
	}
	return made
}

// closing is how far beyond a shore, in metres (1 ft), a line is drawn to be sure to meet it.
const closing = job.Foot

// beyond is the point so far past b, seen from a.
func beyond(a, b orb.Point, by float64) orb.Point {
	d := flat.Distance(a, b)
	return flat.At(a, b, 0, d, d+by)
}

// constructed are the riparian lines constructed, in a plane.
func (h *shore) constructed(plane *crs.Plane) *geo.Lines {
	var lines [][]orb.Point
	for _, l := range h.lateral {
		if l.line == nil {
			continue
		}
		line := l.line
		if plane != h.Footprint.Plane {
			line = nil
			for _, p := range l.line {
				line = append(line, plane.Forward(h.Footprint.Plane.Inverse(p)))
			}
		}
		lines = append(lines, line)
	}
	return geo.NewLines(lines...)
}

// riparianAt is the distance of a place, or of a candidate, to the riparian lines given and
// constructed. Nothing that hangs on a constructed line is firm, however far it is; where a
// given one is too near already, nothing does.
func (h *shore) riparianAt(s *site.Site) rules.Value {
	given, none := site.Unknown("no riparian lines were given"), true
	if l := h.Layers.Layer("riparian"); l != nil {
		var known bool
		if given, known = s.Values["riparian_nearest"]; !known {
			given = s.SurveyedOnly(l, s.Riparian(l))
		}
		none = false
	}
	lines := h.constructed(s.Footprint.Plane)
	switch {
	case none && h.front.Whole: // an island of one owner has no neighbours
		return rules.Value{Number: s.Radius, Bound: rules.MoreThan}
	case lines.Empty() || !none && given.Unknown != "":
		return given
	}
	nearest := s.Footprint.Nearest(lines).Distance
	switch {
	case none || nearest < given.Number:
		own := rules.Value{Number: nearest, Room: math.NaN(), Detail: "from a constructed line", Layer: "riparian"}
		return site.Doubting(own, site.NotSurveyed, 0)
	case given.Bound != rules.Exact:
		return site.Doubting(given, site.NotSurveyed, 0)
	}
	given.Also = append(given.Also, rules.Also{Number: 0, Says: site.NotSurveyed})
	return given
}
