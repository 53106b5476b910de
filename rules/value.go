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
	// Also are other numbers it can be read as, or would be after a small shift of
	// what is drawn: a firm result needs all of them on one side of the limit.
	Also []Also
	// Doubts are what keeps a result on the value from being firm.
	Doubts []Doubt
	// Detail is a remark on how it was measured, such as "two shores".
	Detail string

	// Accuracy is that of every feature that could have decided; nil where the
	// measure does not hang on mapped positions.
	Accuracy []Accuracy
	// Edge is, in metres, how far the footprint would have to move for the
	// answer to change. Where it is set it decides closeness instead of the
	// margin, for measures whose margin is not a distance; such a measure
	// without it counts as certain, whatever its accuracy.
	Edge *float64

	Room     float64   // metres, for a farthest reach: how far it can move landward and stay in the water; for riparian_nearest: the distance to the line on the other side; NaN if not known
	PerMetre float64   // of an area: by how much it changes where all its outline shifts by a metre; 0 if not known
	Whole    float64   // metres that 1 of a ratio stands for: the width, for waterway_share; the tide range, for fill_tide_ranges
	Narrow   []float64 // metres, for longest_run: clear widths of the openings too narrow to count
	Widened  float64   // metres, for longest_run: the longest run if all of Narrow were widened enough

	Layer, Feature string // what the value rests on
	Date           string // the oldest of all that could have decided; empty if one states none
}

// Also is another number that a value can be.
type Also struct {
	Number float64
	Shift  float64 // metres by which positions would have to be off for it; 0: it is another interpretation of the same positions
	Says   string  // of another interpretation: what it is, for whoever must settle it
}

// Doubt is what keeps a result from being firm, and so what must be asked for.
type Doubt struct {
	Says   string
	Within float64 // metres; it bears only on a value nearer to its limit than this. 0: on any
}

// Accuracy is the horizontal accuracy behind a distance, in metres, as radial
// figures at 95 % (FGDC-STD-007.3-1998, NSSDA), or the vertical accuracy behind a
// difference of heights, as linear figures at 95 %. NaN means unstated.
type Accuracy struct {
	Of        string // whose Line is, in words: "the mean high water line MHW-2"
	Line      float64
	Footprint float64
	Bias      float64 // known datum mismatch, of either sign; added linearly, as it does not average out
	// Farther is how much farther than the value the feature lies that this is the
	// accuracy of: a coarse one behind an exact one can be the nearer.
	Farther float64
	// OfHeights says that the figures are vertical.
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

// UnstatedHeight is the margin, 0.5 ft in metres, beyond which an unstated vertical
// accuracy does not matter (common practice, no source: levelling and satellite
// positioning of a site keep well within it).
const UnstatedHeight = 0.1524

// Tolerance returns the one-sided tolerance in metres, 1.6449 u + |bias| with
// u = sqrt(line² + footprint²) / 2.4477, or / 1.9600 of heights, less what the feature
// lies farther; and what of it is unstated. An unstated part is left out of the root, not
// taken as zero error: the caller must report it.
func (a Accuracy) Tolerance() (tolerance float64, unstated []string) {
	var squares float64
	kind, own := "", "the proposal"
	spans := radial95
	if a.OfHeights {
		spans, kind, own = linear95, "vertical ", "the proposal's elevations"
	}
	for _, part := range []struct {
		name   string
		metres float64
	}{{a.Of, a.Line}, {own, a.Footprint}} {
		if math.IsNaN(part.metres) {
			unstated = append(unstated, "the "+kind+"accuracy of "+part.name+" is not stated")
			continue
		}
		squares += part.metres * part.metres
	}
	return math.Max(0, oneSided95*math.Sqrt(squares)/spans+math.Abs(a.Bias)-a.Farther), unstated
}

// Tolerance is how far, in metres, positions or heights may make the value wrong: the most
// by every feature that could have decided it; NaN where none applies or nothing is stated.
func (v Value) Tolerance() float64 {
	most := math.NaN()
	for _, a := range v.Accuracy {
		tolerance, unstated := a.Tolerance()
		if (len(unstated) < 2 || tolerance > 0) && !(tolerance <= most) {
			most = tolerance
		}
	}
	return most
}

// unstatedWithin is how near to its limit, in metres, a value must lie for what is
// unstated to matter.
func (a Accuracy) unstatedWithin() float64 {
	if a.OfHeights {
		return UnstatedHeight
	}
	return UnstatedReach - a.Farther
}

// Facts answers for one proposal what a criterion asks for. A value that rests on
// data older than asked, or of an age not known, has a doubt that says so.
type Facts interface {
	Measure(Ref) Value
	// Doubts are what keeps any decision on the proposal from being firm.
	Doubts() []string
}
