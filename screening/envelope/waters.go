package envelope

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/simplify"

	"waterward/geo"
	"waterward/geo/flat"
	"waterward/geo/geojson"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/site"
)

const (
	// sideDetail is how far, in metres (10 ft), a front may wind and still run straight on.
	sideDetail = 10 * job.Foot
	// sideTurn is the cosine of 45 degrees: a front that turns by more looks out on other
	// water, as that of a corner lot does.
	sideTurn = flat.Cos45
)

// beforeDitch is how far off the shore, in metres (1 ft), a structure is thought to stand so
// that the narrowest of ditches on one side of a front is not passed over for its other
// sides.
const beforeDitch = job.Foot

// water is what one side of a front looks out on.
type water struct {
	line  []orb.Point // the side, in the plane, the water on its left
	lines *geo.Lines
	width rules.Value // of the water across it
}

// sides parts a front where it turns for good.
func sides(line []orb.Point) [][]orb.Point {
	plain := simplify.DouglasPeucker(sideDetail).LineString(orb.LineString(line).Clone())
	var corners []orb.Point
	var along orb.Point
	for i := 1; i < len(plain); i++ {
		way := unit(plain[i-1], plain[i])
		switch {
		case i == 1:
			along = way
		case flat.Dot(way, along) < sideTurn:
			corners, along = append(corners, plain[i-1]), way
		}
	}
	var out [][]orb.Point
	from := 0
	for i, p := range line {
		if len(corners) > 0 && i > from && p == corners[0] {
			out, from, corners = append(out, line[from:i+1]), i, corners[1:]
		}
	}
	return append(out, line[from:])
}

// waters looks how wide the water is across each side of the front, as a structure along
// all of that side would have it.
func (e *Search) waters(h *shore) []water {
	least := h.acrossFront()
	all := sides(h.Bank.Lines.Turned(h.line))
	// Where nothing lies across any of it there is nothing to tell apart.
	nothing := func() bool {
		_, rock := h.Bank.WidthBefore(beforeDitch)
		return rock.Distance > h.Radius
	}
	if len(all) == 1 || least.Unknown != "" || least.Bound != rules.Exact && nothing() {
		return []water{{h.line, h.frontLines, least}}
	}
	var out []water
	for i, line := range all {
		w := water{line: line, lines: geo.NewLines(line), width: least}
		var side orb.LineString
		for _, p := range clearOf(line, i > 0 || h.front.Whole, i < len(all)-1 || h.front.Whole) {
			side = append(side, h.Footprint.Plane.Inverse(p))
		}
		if fp, err := geo.NewFootprint(side, 0, 0); err == nil {
			w.width = h.acrossSide(e, side, fp)
		}
		out = append(out, w)
	}
	return out
}

// clearOf is a side without what of it lies at the corners where others begin: from there
// ways lead out on either water.
func clearOf(line []orb.Point, before, after bool) []orb.Point {
	base := geo.NewBaseline(line)
	from, to, off := 0.0, base.Length(), math.Min(sideDetail, base.Length()/3)
	if before {
		from += off
	}
	if after {
		to -= off
	}
	return base.Between(from, to)
}

// acrossSide is the width of the water across one side of the front.
func (h *shore) acrossSide(e *Search, side orb.LineString, fp *geo.Footprint) rules.Value {
	p := *h.Proposal
	p.Of, p.Footprint = site.Alone(geojson.NewFeature("", side, e.System), ""), fp
	own := &shore{Site: site.Bare(&p, h.Layers, h.Radius), front: h.front}
	if noHigh, _ := own.Banks(); own.Bank == nil {
		return site.Unknown("%s", noHigh)
	}
	own.Occupied = own.Bank.Occupied()
	return own.acrossFront()
}

// widthAt is the width of the water on which the side of the front nearest to a place
// looks out; of two sides as near, as round a corner, that on its side of the corner.
func (h *shore) widthAt(at orb.Point) rules.Value {
	best, nearest := 0, h.waters[0].lines.Nearest(at).Distance
	for i := 1; i < len(h.waters); i++ {
		switch d := h.waters[i].lines.Nearest(at).Distance; {
		case d < nearest-asNear:
			best, nearest = i, d
		case d <= nearest+asNear && best == i-1 && !h.before(i, at),
			d <= nearest+asNear && best == 0 && i == len(h.waters)-1 && h.front.Whole && h.before(0, at):
			best = i
		}
	}
	return h.waters[best].width
}

// asNear is by how much, in metres, distances to one corner differ by rounding.
const asNear = 1e-6

// before reports whether a place lies on the near side of the corner at which a side of
// the front begins.
func (h *shore) before(side int, at orb.Point) bool {
	c := h.corner(side)
	return flat.Cross(c[0], c[1], at) > 0
}

// corner is the line that halves the corner at which a side of the front begins: on it
// changes which water a place looks out on. It runs to the water, on the left, from a little
// landward, so that the shore is surely met.
func (h *shore) corner(side int) []orb.Point {
	line, before := h.waters[side].line, h.waters[(side+len(h.waters)-1)%len(h.waters)].line
	at := line[0]
	come, goes := unit(before[len(before)-2], at), unit(at, line[1])
	along := unit(orb.Point{}, orb.Point{come[0] + goes[0], come[1] + goes[1]})
	if along == (orb.Point{}) { // back along itself, round the tip of a spit
		along = orb.Point{come[1], -come[0]}
	}
	off := func(metres float64) orb.Point { return orb.Point{at[0] - metres*along[1], at[1] + metres*along[0]} }
	return []orb.Point{off(-shoreSlack), off(lateralExcess * h.reach)}
}

// corners are those between the sides of the front.
func (h *shore) corners() [][]orb.Point {
	var out [][]orb.Point
	for i := range h.waters {
		if i > 0 || h.front.Whole && len(h.waters) > 1 {
			out = append(out, h.corner(i))
		}
	}
	return out
}

// middles are the lines halfway across the narrow waters of a front of several sides, drawn
// on: beyond the mouth of a ditch the bay is the other lot's from there on.
func (h *shore) middles() [][]orb.Point {
	var out [][]orb.Point
	for _, w := range h.waters {
		half := w.width.Number / 2
		if len(h.waters) == 1 || w.width.Unknown != "" || half >= h.reach {
			continue
		}
		lines := geo.LimitLines(w.lines, half, geo.WaterSide, h.extent)
		if len(lines) == 1 {
			line, n := lines[0], len(lines[0])
			first, last := beyond(line[1], line[0], lateralExcess*h.reach), beyond(line[n-2], line[n-1], lateralExcess*h.reach)
			lines[0] = append(append([]orb.Point{first}, line...), last)
		}
		out = append(out, lines...)
	}
	return out
}

// unit is the direction from one place to another; nothing from a place to itself.
func unit(from, to orb.Point) orb.Point {
	if from == to {
		return orb.Point{}
	}
	return flat.Direction(from, to)
}
