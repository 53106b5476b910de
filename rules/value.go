package rules

import "math"

// Bound says how a value's number stands to the true one.
type Bound int

const (
	Exact    Bound = iota
	MoreThan       // the true value is more than the number
	LessThan       // the true value is less than the number
)

// Value is one measured fact: metres, square metres, cubic metres, cubic metres
// per metre, a ratio or a count.
type Value struct {
	Number float64
	Bound  Bound
	Word   string   // for a kind or a material, as stated
	Names  []string // for in_area: what the footprint touches; empty means outside

	// Unknown, when not empty, says why the value is unknown and what to
	// supply; nothing else in the value then counts.
	Unknown string
	// Either are the numbers it might be as well, where something within the
	// resolution could be read either way; Edge says how near that is.
	Either []float64
	// Doubt, when not empty, says why no result on the value can be firm.
	Doubt string
	// Detail is a remark on how it was measured, such as "two shores".
	Detail string

	// Accuracy is nil where the measure does not hang on mapped positions.
	Accuracy *Accuracy
	// Edge is, in metres, how far the footprint would have to move for the
	// answer to change. Where it is set it decides closeness instead of the
	// margin, for measures whose margin is not a distance; such a measure
	// without it counts as certain, whatever its accuracy.
	Edge *float64

	Room    float64   // metres, for a farthest reach: how far it can move landward and stay in the water; for riparian_nearest: the distance to the line on the other side; NaN if not known
	Whole   float64   // metres that 1 of a ratio stands for: the width, for waterway_share; the tide range, for fill_tide_ranges
	Narrow  []float64 // metres, for longest_run: clear widths of the openings too narrow to count
	Widened float64   // metres, for longest_run: the longest run if all of Narrow were widened enough

	Layer, Feature, Date string // what the value rests on
}

// Accuracy is the horizontal accuracy behind a distance, in metres, as radial
// figures at 95 % (FGDC-STD-007.3-1998, NSSDA), or the vertical accuracy behind a
// difference of heights, as linear figures at 95 %. NaN means unstated.
type Accuracy struct {
	Line      float64
	Footprint float64
	Bias      float64 // known datum mismatch, of either sign; added linearly, as it does not average out
	// Farther is how much farther than the value the feature lies that this is the
	// accuracy of: a coarse one behind an exact one can be the nearer.
	Farther float64
	// AlsoUnstated says that another feature that may be the nearer states none.
	AlsoUnstated bool
	// OfHeights says that the figures are vertical. An unstated one is then taken as
	// none, as few surveys state it: 100 ft of doubt about a height would leave nothing.
	OfHeights bool
}

// radial95 is how many standard deviations of one axis a radial 95 % figure
// spans: sqrt(-2 ln 0.05). A distance to a line feels only the error normal to it.
const radial95 = 2.4477

// linear95 is how many standard deviations a vertical 95 % figure spans (NSSDA).
const linear95 = 1.9600

// oneSided95 is the normal quantile for a 5 % risk on one side.
const oneSided95 = 1.6449

// Resolution is the accuracy of the measuring itself, 0.01 ft in metres: a
// length nearer to its limit than this cannot be told from it.
const Resolution = 0.003048

// UnstatedReach is the distance, 100 ft in metres, beyond which an unstated
// accuracy cannot matter: the coarsest published national map-accuracy figure,
// for 1:24,000 sheets, is 40 ft at 90 % (from memory), and 100 ft leaves room.
const UnstatedReach = 30.48

// Guard returns the one-sided guard in metres, 1.6449 u + |bias| with
// u = sqrt(line² + footprint²) / 2.4477, or / 1.9600 of heights, and which of "line"
// and "footprint" are unstated. An unstated part is left out of the root, not taken as zero error:
// the caller must report it.
func (a Accuracy) Guard() (guard float64, unstated []string) {
	var squares float64
	for _, part := range []struct {
		name   string
		metres float64
	}{{"line", a.Line}, {"footprint", a.Footprint}} {
		if math.IsNaN(part.metres) {
			unstated = append(unstated, part.name)
			continue
		}
		squares += part.metres * part.metres
	}
	spans := radial95
	if a.OfHeights {
		spans, unstated = linear95, nil
	}
	if a.AlsoUnstated && !math.IsNaN(a.Line) {
		unstated = append(unstated, "line")
	}
	return math.Max(0, oneSided95*math.Sqrt(squares)/spans+math.Abs(a.Bias)-a.Farther), unstated
}

// Facts answers for one proposal what a criterion asks for. A value that rests on
// data older than asked, or of an age not known, has a Doubt that says so.
type Facts interface {
	Measure(Ref) Value
}
