package envelope

import (
	"errors"
	"math"

	"github.com/paulmach/orb"

	"waterward/geo/area"
	"waterward/rules"
	"waterward/screening/site"
)

// zone is the water before a front, parted along everything that some paths measure from
// there, and what each of them says of each piece.
type zone struct {
	number int // among the partings of the front's water
	cells  *area.Cells
	water  []int // the cells before the front, within reach
	says   map[*sited][]verdict
	fits   map[string]*fit // by what is open
}

// verdict is what a path says of a cell.
type verdict struct {
	state  state
	beyond bool            // the path's own reach
	causes []string        // of what keeps it from being open
	closed rules.Certainty // how sure it is that it is blocked; empty if it is not
}

// state is what a path says of a place.
type state int

const (
	blocked state = iota
	unclear
	open
)

// divide parts the water before a front and asks paths about every piece.
func (e *Search) divide(h *shore, paths []*sited) (*zone, error) {
	asked := newAsks(paths)
	courses, err := e.courses(h, asked)
	if err != nil {
		return nil, err
	}
	cells, err := area.Divide(courses, h.extent)
	if err != nil {
		return nil, err
	}
	z := &zone{cells: cells, says: map[*sited][]verdict{}, fits: map[string]*fit{}}
	wet := func(c area.Cell) bool {
		signed, _ := h.Bank.Lines.Signed(c.Inside)
		return signed > -shoreSlack
	}
	before := cells.Gather(wet, e.Settings.Tolerance.Metres)
	if len(before) == 0 {
		return nil, errors.New("no water is found before the front; look at the lines there")
	}
	for _, i := range before {
		if c := cells.Cells[i]; c.Area > area.Dust && h.owns(c.Inside) {
			z.water = append(z.water, i)
		}
	}
	companies := make([]company, len(paths))
	for k, p := range paths {
		z.says[p], companies[k] = make([]verdict, len(z.water)), newCompany()
	}
	for n, i := range z.water {
		facts := e.cellFacts(h, cells.Cells[i], asked)
		for k, p := range paths {
			v := p.ask(facts, e.Settings.Width.Metres)
			if facts.Values["waterway_width"].Unknown != "" && v.state == open { // nor is the middle known
				v.unclear(noDataOn + "the shore across")
			}
			if v.state == open {
				companies[k].meet(p, n, facts)
			}
			z.says[p][n] = v
		}
	}
	for k, p := range paths {
		for n, cause := range companies[k].apart() {
			if v := &z.says[p][n]; v.state == open {
				v.unclear(cause)
			}
		}
	}
	return z, nil
}

// cellFacts are what a cell is asked by.
func (e *Search) cellFacts(h *shore, c area.Cell, asked *asks) spot {
	facts := h.spot(c.Inside, e, asked)
	if h.marsh != nil && asked.siting.Asks(site.OfWetlandBehind...) {
		if _, all := h.Bank.BeforeAll(c.Polygon, c.Inside, h.marsh, site.WetlandBehind); !all {
			facts.SetAll(site.Unknown("part of this water lies before a wetland and part does not"), site.OfWetlandBehind...)
		}
	}
	return facts
}

// owns reports whether a place is water within reach and on this side of the middle. Beyond
// the middle lies what is farther than that from the front and between it and other shore of
// the same bank, as round the head of a canal.
func (h *shore) owns(at orb.Point) bool {
	d, _ := h.Bank.Lines.Signed(at)
	most := h.reach
	w := h.widthAt(at)
	if w.Unknown == "" {
		most = math.Min(most, w.Number/2)
	}
	if d <= 0 || d > most {
		return false
	}
	own := h.frontLines.Nearest(at)
	if w.Unknown != "" || own.Distance <= w.Number/2 {
		return true
	}
	shore := h.Bank.Lines.Nearest(at).At
	return (at[0]-own.At[0])*(at[0]-shore[0])+(at[1]-own.At[1])*(at[1]-shore[1]) >= 0
}

// shoreSlack is how far landward, in metres, a cell between the shore and a line along it
// may come to lie: the ends of fronts bend the shore by half of that at most.
const shoreSlack = 0.01

// ask puts a cell to the siting criteria of the path.
func (p *sited) ask(facts rules.Facts, width float64) verdict {
	v := verdict{state: open}
	for _, c := range p.criteria {
		r := rules.Judge(p.path, c, facts)
		of, _ := site.PlaceRecord(r.Measure.Name)
		switch {
		case r.Holds:
			continue
		case r.Outcome == rules.Unknown:
			v.state = min(v.state, unclear)
			v.causes = append(v.causes, noDataOn+lackingOf(c, &r, facts).Blame)
			continue
		}
		v.state = blocked
		v.closed = surest(v.closed, closedBy(&r, width))
		if of.Reach {
			v.beyond = true
		} else {
			v.causes = append(v.causes, of.Blame)
		}
	}
	return v
}

// closedBy is how sure it is that a criterion fails at a place, for a structure of a width: a
// position that may be off by more than that could open water for one.
func closedBy(r *rules.Result, width float64) rules.Certainty {
	if len(r.Doubts) > 0 {
		return rules.NeedsInformation
	}
	off := 0.0
	for _, a := range r.Value.Accuracy {
		if tolerance, _ := a.Tolerance(); tolerance > off {
			off = tolerance
		}
	}
	if r.Outcome == rules.Close || off > width {
		return rules.CloseCall
	}
	return rules.Firm
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
func (v *verdict) unclear(cause string) {
	v.state, v.causes = unclear, append(v.causes, cause)
}

// noDataOn is the cause of a place of which a layer says nothing, before its name.
const noDataOn = "no data on "
