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
	// structure fits: its length is known to twice that.
	fitStep = job.Foot
	// fitInset is how far, in metres (0.1 ft), a structure stays clear of the edge of
	// the envelope: twice what the edge may be off.
	fitInset = 0.1 * job.Foot
	// offsetsTried is at how many distances from the shore a structure is tried.
	offsetsTried = 5
)

// fit is what fits before a front under one path.
type fit struct {
	open    float64     // metres of frontage before which the structure fits
	longest float64     // its longest continuous piece
	deepest float64     // greatest distance from mean high water within the envelope
	run     []orb.Point // the middle line of the longest strip that fits, in the plane
}

// fits finds where a strip of a width, parallel to the shore, lies wholly in the
// open water of a path.
func (h *shore) fits(open orb.MultiPolygon, width float64) fit {
	var f fit
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
	base, stations := geo.NewBaseline(h.line), geo.NewStationing(h.line)
	step := math.Min(fitStep, base.Length()/4)
	covered := make([]bool, int(math.Ceil(base.Length()/step))+1)
	holds, bound := area.NewCover(open).Holds, open.Bound()
	for _, share := range offsets() {
		d := least + share*(most-least)
		for _, line := range geo.LimitLines(h.Bank.Lines, d, geo.WaterSide, h.extent) {
			along, trail := geo.NewBaseline(line), geo.NewTrail(shore)
			var from, last float64 // of the run, and the station of the sample before
			inside := false
			end := func(at float64) {
				if inside && at-from > f.runLength()+fitStep {
					f.run = along.Between(from, at)
				}
				inside = false
			}
			for at := 0.0; at <= along.Length(); at += step {
				p := along.At(at)
				if !holds(p) {
					end(at - step)
					for off := apart(bound, p) - step; off > fitInset; off -= step { // nor is the next held
						at += step
					}
					continue
				}
				foot := trail.Nearest(p)
				out := orb.Point{(p[0] - foot.At[0]) / foot.Distance * asked, (p[1] - foot.At[1]) / foot.Distance * asked}
				if !holds(orb.Point{p[0] + out[0], p[1] + out[1]}) || !holds(orb.Point{p[0] - out[0], p[1] - out[1]}) {
					end(at - step)
					continue
				}
				station, on := stations.Of(foot.At)
				if !inside {
					inside, from, last = true, at, math.NaN()
				}
				if on {
					coverFeet(covered, last, station, step)
				}
				last = station
				if !on {
					last = math.NaN()
				}
			}
			end(math.Floor(along.Length()/step) * step)
		}
	}
	f.open, f.longest = stretches(covered, step, base.Length())
	return f
}

// apart is how far a place lies from a bound.
func apart(b orb.Bound, p orb.Point) float64 {
	return math.Hypot(max(b.Min[0]-p[0], 0, p[0]-b.Max[0]), max(b.Min[1]-p[1], 0, p[1]-b.Max[1]))
}

// coverFeet marks the shore between the feet of two neighbouring samples; not the long way
// round an island, and only the second foot if there is no first.
func coverFeet(covered []bool, last, station, step float64) {
	from, to := math.Min(last, station), math.Max(last, station)
	if math.IsNaN(last) || to-from > float64(len(covered))*step/2 {
		from, to = station, station
	}
	for i := int(from / step); i <= int(to/step); i++ {
		covered[i] = true
	}
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

func (f *fit) runLength() float64 {
	if f.run == nil {
		return 0
	}
	return geo.NewBaseline(f.run).Length()
}

// stretches adds up what is covered of a front, and its longest piece.
func stretches(covered []bool, step, whole float64) (sum, longest float64) {
	piece := 0.0
	for i, c := range covered {
		if !c {
			piece = 0
			continue
		}
		length := math.Min(step, whole-float64(i)*step)
		if length <= 0 {
			continue
		}
		piece += length
		sum += length
		longest = math.Max(longest, piece)
	}
	return sum, longest
}
