package envelope

import (
	"errors"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/area"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/site"
)

// zone is the water before a front, parted along everything the books measure from
// there, and what each path says of each piece.
type zone struct {
	cells *area.Cells
	water []int // the cells before the front, within reach
	paths []*pathZone
}

// pathZone is what one path says of the water before a front.
type pathZone struct {
	*sited
	state   []state            // of each cell; dry ones, and those beyond reach, are blocked
	band    float64            // square metres within the path's own reach
	taken   map[string]float64 // of the band, by cause
	open    orb.MultiPolygon   // in the plane
	like    int                // the first path with the same open water
	blank   orb.MultiPolygon   // where it is not known
	company company
}

// state is what a path says of a place.
type state int

const (
	blocked state = iota
	unclear
	open
)

// divide parts the water before a front and asks every path about every piece.
func (e *Search) divide(h *shore) (*zone, error) {
	courses, err := e.courses(h)
	if err != nil {
		return nil, err
	}
	cells, err := area.Divide(courses, h.extent)
	if err != nil {
		return nil, err
	}
	z := &zone{cells: cells}
	wet := func(c area.Cell) bool {
		signed, _ := h.Bank.Lines.Signed(c.Inside)
		return signed > -shoreSlack
	}
	before := cells.Gather(wet, e.Settings.Tolerance.Metres)
	if len(before) == 0 {
		return nil, errors.New("no water is found before the front; look at the lines there")
	}
	for _, i := range before {
		if c := cells.Cells[i]; c.Area > dust && h.owns(c.Inside) {
			z.water = append(z.water, i)
		}
	}
	for _, path := range e.paths {
		z.paths = append(z.paths, &pathZone{
			sited: path, state: make([]state, len(cells.Cells)), taken: map[string]float64{},
			company: company{map[*rules.Demand]bool{}, map[int][]pending{}},
		})
	}
	for _, i := range z.water {
		c := cells.Cells[i]
		facts := h.spot(c.Inside, e)
		if h.marsh != nil {
			if _, all := h.Bank.BeforeAll(c.Polygon, c.Inside, h.marsh, site.WetlandBehind); !all {
				facts.SetAll(site.Unknown("part of this water lies before a wetland and part does not"), site.OfWetlandBehind...)
			}
		}
		for _, p := range z.paths {
			p.ask(i, c.Area, facts)
			if facts.Values["waterway_width"].Unknown != "" && p.state[i] == open { // nor is the middle known
				p.unclear(i, c.Area, noDataOn+"the shore across")
			}
			if p.state[i] == open {
				p.company.meet(p, i, facts)
			}
		}
	}
	for _, p := range z.paths {
		apart := p.company.apart()
		for _, i := range z.water {
			if cause, is := apart[i]; is {
				p.unclear(i, cells.Cells[i].Area, cause)
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
	d, _ := h.Bank.Lines.Signed(at)
	most := h.reach
	if w := h.widthAt(at); w.Unknown == "" {
		most = math.Min(most, w.Number/2)
	}
	return d > 0 && d <= most
}

// shoreSlack is how far landward, in metres, a cell between the shore and a line along it
// may come to lie: the ends of fronts bend the shore by half of that at most.
const shoreSlack = 0.01

// dust is the area, in square metres (1 square inch), of cells that come of rounding
// where courses run along one another.
const dust = job.SquareFoot / 144

// ask puts a cell to the siting criteria of the path.
func (p *pathZone) ask(cell int, shape float64, facts rules.Facts) {
	at, near := open, true
	var causes []string
	for _, c := range p.criteria {
		r := rules.Judge(p.path, c, facts)
		of, _ := site.PlaceRecord(r.Measure.Name)
		switch {
		case r.Holds:
			continue
		case r.Outcome == rules.Unknown:
			at = min(at, unclear)
			causes = append(causes, noDataOn+lackingOf(c, &r, facts).Blame)
			continue
		}
		at = blocked
		if of.Reach {
			near = false
		} else {
			causes = append(causes, of.Blame)
		}
	}
	p.state[cell] = at
	if near {
		p.band += shape
		slices.Sort(causes)
		for _, cause := range slices.Compact(causes) {
			p.taken[cause] += shape
		}
	}
}

// lackingOf is the record of the measure that leaves a criterion open at a place: its own,
// or that of a condition.
func lackingOf(c *rules.Criterion, r *rules.Result, facts rules.Facts) site.Record {
	for _, when := range c.When {
		if of, ok := site.PlaceRecord(when.Ref.Measure); ok && r.Value.Unknown == "" && facts.Measure(when.Ref).Unknown != "" {
			return of
		}
	}
	of, _ := site.PlaceRecord(r.Measure.Name)
	return of
}

// unclear takes an open cell for one of which it is not known whether it is.
func (p *pathZone) unclear(cell int, shape float64, cause string) {
	p.state[cell] = unclear
	p.taken[cause] += shape
}

// noDataOn is the cause of a place of which a layer says nothing, before its name.
const noDataOn = "no data on "
