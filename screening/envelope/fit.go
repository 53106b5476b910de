package envelope

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/area"
	"waterward/screening/job"
)

const (
	// fitStep is how often along the shore, in metres (1 ft), it is asked whether a
	// structure fits.
	fitStep = job.Foot
	// fitEnd is how close, in metres (0.01 ft), the end of what fits is found.
	fitEnd = 0.01 * job.Foot
	// fitInset is how far, in metres (0.1 ft), a structure stays clear of the edge of
	// the envelope: twice what the edge may be off.
	fitInset = 0.1 * job.Foot
	// offsetsTried is at how many distances from the shore a structure is tried.
	offsetsTried = 5
	// runsKept is how many of the strips that fit are kept to be tried.
	runsKept = 3
)

// fit is what fits before a front in the open water of a question.
type fit struct {
	open     float64       // metres of frontage before which the structure fits
	longest  float64       // its longest continuous piece
	deepest  float64       // greatest distance from mean high water within the envelope
	runs     [][]orb.Point // middle lines of strips that fit, in the plane, the longest first
	straight bool          // the runs are straight, as none along the shore is long enough
}

// fitted is what fits into open water: along the shore, or else straight.
func (h *shore) fitted(open orb.MultiPolygon, width, least float64) *fit {
	f := h.fitsIn(open, width)
	if f.length() >= least {
		return f
	}
	if runs := h.straightIn(open, width, least); runs != nil {
		f.runs, f.straight = runs, true
		feet := newFrontFeet(h)
		for _, run := range runs {
			base := geo.NewBaseline(run)
			for at := 0.0; ; at = math.Min(at+fitStep, base.Length()) {
				feet.add(h.Bank.Lines.Nearest(base.At(at)).At, at == 0)
				if at >= base.Length() {
					break
				}
			}
		}
		f.open, f.longest = feet.sums()
	}
	return f
}

// length is that of the longest strip that fits, less what it keeps clear at its ends.
func (f *fit) length() float64 {
	if len(f.runs) == 0 {
		return 0
	}
	return math.Max(0, geo.NewBaseline(f.runs[0]).Length()-2*fitInset)
}

// pieces are those of the longest strips between corners, the longest first.
func (f *fit) pieces() [][]orb.Point {
	var out [][]orb.Point
	for _, run := range f.runs {
		if all := sides(run); len(all) > 1 {
			out = append(out, all...)
		}
	}
	return longestRuns(out, runsKept)
}

// fitsIn finds where a strip of a width, parallel to the shore, lies wholly in open water.
// What is narrower than fitStep can be missed; a candidate is screened.
func (h *shore) fitsIn(open orb.MultiPolygon, width float64) *fit {
	f := &fit{}
	if len(open) == 0 {
		return f
	}
	// Nothing farther can be nearest to a place of it.
	shore := h.Bank.Within(open.Bound().Pad(1.01 * h.reach)).Lines
	half := width/2 + fitInset
	asked := width/2 + 0.9*fitInset // so that what just fits does not hang on rounding
	least, deepest := geo.Span(open, shore)
	f.deepest = math.Max(0, deepest)
	least, most := least+half, f.deepest-half
	if most < least {
		return f
	}
	holds, bound := area.NewCover(open).Holds, open.Bound()
	feet := newFrontFeet(h)
	var runs [][]orb.Point
	for _, share := range offsets() {
		for _, line := range geo.LimitLines(h.Bank.Lines, least+share*(most-least), geo.WaterSide, h.extent) {
			along, trail := geo.NewBaseline(line), geo.NewTrail(shore)
			across := func(at float64) (foot orb.Point, fits bool) {
				p := along.At(at)
				if !holds(p) {
					return p, false
				}
				near := trail.Nearest(p)
				out := orb.Point{(p[0] - near.At[0]) / near.Distance * asked, (p[1] - near.At[1]) / near.Distance * asked}
				return near.At, holds(orb.Point{p[0] + out[0], p[1] + out[1]}) && holds(orb.Point{p[0] - out[0], p[1] - out[1]})
			}
			skip := func(at float64) float64 { // so far on nothing is held either
				return apart(bound, along.At(at)) - fitInset
			}
			for _, piece := range pieces(along.Length(), across, skip, feet.add) {
				runs = append(runs, along.Between(piece[0], piece[1]))
			}
		}
	}
	f.runs = longestRuns(runs, runsKept)
	f.open, f.longest = feet.sums()
	return f
}

// pieces are the stations between which every cross-section fits, each end found within
// fitEnd. Where one does not, none does for as far as skip says. The feet of those asked are
// told in order, with whether one begins a piece.
func pieces(length float64, across func(at float64) (orb.Point, bool), skip func(at float64) float64, tell func(foot orb.Point, begins bool)) [][2]float64 {
	var out [][2]float64
	// turn is the last station that fits from one that does towards one that does not.
	turn := func(yes, no float64) float64 {
		for math.Abs(yes-no) > fitEnd {
			if middle := (yes + no) / 2; second(across(middle)) {
				yes = middle
			} else {
				no = middle
			}
		}
		return yes
	}
	inside, from, last := false, 0.0, 0.0
	end := func(at float64) {
		foot, _ := across(at)
		tell(foot, false)
		out = append(out, [2]float64{from, at})
		inside = false
	}
	for at := 0.0; ; {
		foot, fits := across(at)
		switch {
		case fits && !inside:
			inside, from = true, at
			if at > 0 {
				from = turn(at, last)
				first, _ := across(from)
				tell(first, true)
			}
			tell(foot, at == 0)
		case fits:
			tell(foot, false)
		case inside:
			end(turn(last, at))
		}
		if at >= length {
			break
		}
		last = at
		step := fitStep
		if !fits {
			step = math.Max(step, skip(at))
		}
		at = math.Min(at+step, length)
	}
	if inside {
		end(length)
	}
	return out
}

func second(_ orb.Point, fits bool) bool { return fits }

// longestRuns are the longest of some runs, the first of those that differ by less than
// fitStep: offsets() begins with the one that leaves the most margin.
func longestRuns(runs [][]orb.Point, most int) [][]orb.Point {
	var out [][]orb.Point
	lengths := make([]float64, len(runs))
	for i, run := range runs {
		lengths[i] = geo.NewBaseline(run).Length()
	}
	for range most {
		best := -1
		for i, length := range lengths {
			if length > 0 && (best < 0 || length > lengths[best]+fitStep) {
				best = i
			}
		}
		if best < 0 {
			break
		}
		out = append(out, runs[best])
		lengths[best] = 0
	}
	return out
}

// apart is how far a place lies from a bound.
func apart(b orb.Bound, p orb.Point) float64 {
	return math.Hypot(max(b.Min[0]-p[0], 0, p[0]-b.Max[0]), max(b.Min[1]-p[1], 0, p[1]-b.Max[1]))
}

// offsets are the shares of the depth of the envelope at which a structure is
// tried, the middle first: it leaves the most margin.
func offsets() []float64 {
	out := []float64{0.5}
	for i := range offsetsTried {
		if share := float64(i) / (offsetsTried - 1); share != 0.5 {
			out = append(out, share)
		}
	}
	return out
}
