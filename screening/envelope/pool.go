package envelope

import (
	"slices"

	"github.com/paulmach/orb"

	"waterward/rules"
)

// pool is the water before a front as a question leaves it.
type pool struct {
	of                  question
	zone                *zone
	fit                 *fit
	tried               *attempt           // to draw a structure there; nil before that
	longest             float64            // metres, of the longest structure that fits
	states              []state            // of the zone's water
	area, unknown, band float64            // square metres: open, not known, within the paths' own reach
	taken               map[string]float64 // of the band, by cause
	closed              rules.Certainty    // how sure it is that what is blocked is so
}

// asked reports whether all paths of a question were asked.
func (z *zone) asked(q question) bool {
	return !slices.ContainsFunc(q, func(p *sited) bool { return z.says[p] == nil })
}

// together is the water in which all paths of a question hold.
func (z *zone) together(q question) *pool {
	out := &pool{of: q, zone: z, states: make([]state, len(z.water)), taken: map[string]float64{}, closed: rules.Firm}
	for n, i := range z.water {
		at, near := open, true
		var causes []string
		var closed rules.Certainty
		for _, p := range q {
			v := &z.says[p][n]
			at, near, causes = min(at, v.state), near && !v.beyond, append(causes, v.causes...)
			closed = surest(closed, v.closed)
		}
		shape := z.cells.Cells[i].Area
		switch out.states[n] = at; at {
		case open:
			out.area += shape
		case unclear:
			out.unknown += shape
		case blocked:
			out.closed = lessSure(out.closed, closed)
		}
		if near {
			out.band += shape
			slices.Sort(causes)
			for _, cause := range slices.Compact(causes) {
				out.taken[cause] += shape
			}
		}
	}
	return out
}

// shape is the water of a state, in the plane.
func (p *pool) shape(of state) orb.MultiPolygon {
	chosen := make(map[int]bool, len(p.states))
	for n, i := range p.zone.water {
		chosen[i] = p.states[n] == of
	}
	return p.zone.cells.Join(func(i int) bool { return chosen[i] })
}

// key tells what is open of pools of one zone apart.
func (p *pool) key() string {
	b := make([]byte, len(p.states))
	for n, s := range p.states {
		if s == open {
			b[n] = 1
		}
	}
	return string(b)
}

// closing is how sure it is that no structure fits. Where some water is open, too little
// for one, better positions could make it enough.
func (p *pool) closing() rules.Certainty {
	switch {
	case p.unknown > 0:
		return rules.NeedsInformation
	case p.area > 0:
		return lessSure(p.closed, rules.CloseCall)
	}
	return p.closed
}

// blocker names what keeps structures off, with its share of the water within reach in
// percent: why those that were drawn did not come out, or what takes the most; where it is
// known that none fits, of that which is known to take something.
func (p *pool) blocker(why string, known bool) (cause string, share float64) {
	if why != "" {
		return why, 0
	}
	if p.band == 0 {
		return "no water within its reach", 0
	}
	worst, most := "", 0.0
	for cause, area := range p.taken {
		if known && wantOf(cause) != "" {
			continue
		}
		if area > most || area == most && cause < worst {
			worst, most = cause, area
		}
	}
	if worst == "" {
		return "too narrow or too short for the structure", 0
	}
	return worst, 100 * most / p.band
}
