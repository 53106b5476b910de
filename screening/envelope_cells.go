package screening

import (
	"errors"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
)

// zone is the water before a front, parted along everything the books measure from
// there, and what each path says of each piece.
type zone struct {
	cells *geo.Cells
	water []int // the cells before the front, within reach
	paths []*pathZone
}

// pathZone is what one path says of the water before a front.
type pathZone struct {
	*sited
	state []state            // of each cell; dry ones, and those beyond reach, are blocked
	band  float64            // square metres within the path's own reach
	taken map[string]float64 // of the band, by cause
	open  orb.MultiPolygon   // in the plane
	like  int                // the first path with the same open water
	blank orb.MultiPolygon   // where it is not known
}

// state is what a path says of a place.
type state int

const (
	blocked state = iota
	unclear
	open
)

// divide parts the water before a front and asks every path about every piece.
func (e *envelope) divide(h *shore) (*zone, error) {
	courses, err := e.courses(h)
	if err != nil {
		return nil, err
	}
	cells, err := geo.Divide(courses, h.extent)
	if err != nil {
		return nil, err
	}
	z := &zone{cells: cells}
	wet := func(c geo.Cell) bool {
		signed, _ := h.bank.Lines.Signed(c.Inside)
		return signed > -shoreSlack
	}
	before := cells.Gather(wet, e.settings.Tolerance.Metres)
	if len(before) == 0 {
		return nil, errors.New("no water is found before the front; look at the lines there")
	}
	for _, i := range before {
		if c := cells.Cells[i]; c.Area > dust && h.owns(c.Inside) {
			z.water = append(z.water, i)
		}
	}
	for _, path := range e.paths {
		z.paths = append(z.paths, &pathZone{sited: path, state: make([]state, len(cells.Cells)), taken: map[string]float64{}})
	}
	for _, i := range z.water {
		facts := h.spot(cells.Cells[i].Inside, e)
		for _, p := range z.paths {
			p.ask(i, cells.Cells[i].Area, facts)
			if h.width.Unknown != "" && p.state[i] == open { // nor is the middle known
				p.state[i] = unclear
				p.taken[noDataOn+"the shore across"] += cells.Cells[i].Area
			}
		}
	}
	for i, p := range z.paths {
		p.like = slices.IndexFunc(z.paths, func(q *pathZone) bool { return z.alike(p, q) })
		if p.like < i {
			p.open = z.paths[p.like].open
		} else {
			p.open = cells.Join(func(i int) bool { return p.state[i] == open })
		}
		p.blank = cells.Join(func(i int) bool { return p.state[i] == unclear })
	}
	return z, nil
}

// alike reports whether the same water is open to two paths.
func (z *zone) alike(p, q *pathZone) bool {
	return !slices.ContainsFunc(z.water, func(i int) bool { return (p.state[i] == open) != (q.state[i] == open) })
}

// owns reports whether a place is water within reach and on this side of the middle.
func (h *shore) owns(at orb.Point) bool {
	d, _ := h.bank.Lines.Signed(at)
	most := h.reach
	if h.width.Unknown == "" {
		most = math.Min(most, h.width.Number/2)
	}
	return d > 0 && d <= most
}

// shoreSlack is how far landward, in metres, a cell between the shore and a line along it
// may come to lie: the ends of fronts bend the shore by half of that at most.
const shoreSlack = 0.01

// dust is the area, in square metres (1 square inch), of cells that come of rounding
// where courses run along one another.
const dust = squareFoot / 144

// ask puts a cell to the siting criteria of the path.
func (p *pathZone) ask(cell int, area float64, facts rules.Facts) {
	at, near := open, true
	var causes []string
	for _, c := range p.criteria {
		r := rules.Judge(p.path, c, facts)
		switch {
		case r.Holds:
			continue
		case r.Outcome == rules.Unknown:
			at = min(at, unclear)
			causes = append(causes, noDataOn+layerOf(r.Measure.Name))
			continue
		}
		at = blocked
		if cause := causeOf(r.Measure.Name); cause == tooFar {
			near = false
		} else {
			causes = append(causes, cause)
		}
	}
	p.state[cell] = at
	if near {
		p.band += area
		slices.Sort(causes)
		for _, cause := range slices.Compact(causes) {
			p.taken[cause] += area
		}
	}
}

// tooFar is the cause of what lies beyond the path's own reach, which is no loss.
const tooFar = "reach"

// noDataOn is the cause of a place of which a layer says nothing, before its name.
const noDataOn = "no data on "

// layerOf is what a measure of a place rests on.
func layerOf(measure string) string {
	if cause := causeOf(measure); cause != tooFar {
		return cause
	}
	if strings.HasPrefix(measure, "mlw_") {
		return "mean low water"
	}
	return "mean high water"
}

// causeOf names what keeps a structure off a place, by the measure that does.
func causeOf(measure string) string {
	family, area, named := strings.Cut(measure, ":")
	if named {
		return area
	}
	for _, of := range []struct{ prefix, cause string }{
		{"seagrass_", "seagrass"}, {"wetland_", "wetland"}, {"channel_", "channel"}, {"riparian_", "neighbour"}, {"waterway_", "narrow water"},
	} {
		if strings.HasPrefix(family, of.prefix) {
			return of.cause
		}
	}
	return tooFar
}
