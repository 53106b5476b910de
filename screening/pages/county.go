package pages

import "github.com/paulmach/orb"

// County is the page of a shore: what could stand where, parcel by parcel, by the rules of
// every authority together and of each.
type County struct {
	Title     string // of the run
	Day       string // whose rules decide
	Caution   string
	Evidence  string   // of the limits used, a sentence
	Structure string   // that is assumed, a sentence
	Chosen    string   // of which parcels it is, a sentence; empty: of all
	LeftOut   []string // paths that the structure can take nowhere, and why
	Warnings  []string // what of the inputs may mislead
	Sources   []Source
}

// Shore is what a parcel, several with the very same fronts, or nobody has of the shore.
type Shore struct {
	Parcels  []Parcel // none of nobody's
	Unknown  bool     // it cannot be told who fronts it
	Water    string   // the water body before its first front
	Lon, Lat float64  // of the middle of that front
	Best     Outcome  // of its fronts
	Riparian string   // how its side lines came to be
	Error    string   // why there is no result, of all or of some fronts
	Fronts   []Front
}

// Parcel is one parcel by name.
type Parcel struct {
	ID      string
	Carried []string // what the parcels carry, by the names of the page
	Note    string
}

// Front is a stretch of shore.
type Front struct {
	Water    string
	Miles    float64
	Strand   int         // of the shore lines
	From, To float64     // metres along it
	Line     []orb.Point // degrees
	Outcome  Outcome
	Taken    []Taken // of the water within reach of all the easiest paths together
	Wants    []Want
}

// Outcome is what a front, or a parcel, comes to.
type Outcome struct {
	Result bool // there is one; the rest is empty else
	Joint  Joint
	By     []Answer // by authority
}

// Joint is what one structure comes to by the rules of all authorities together.
type Joint struct {
	Says      string // in a few words
	Structure bool   // there is one
	Known     bool   // whether one fits that meets every easiest path
	Beyond    []int  // the authorities beyond whose easiest path it is
	Open      []int  // those of which it is not known whether it is
	Certainty Certainty
	Feet      float64 // its greatest length; 0 without one
	Blocker   string  // what keeps any structure off the easiest paths together
	Share     float64 // percent of the water within their reach that it takes
}

// Answer is what one authority's rules come to.
type Answer struct {
	Path      int // among the paths of the authority, the easiest that a structure takes; -1: not known
	CouldBe   int // an easier one that is not known to be closed; -1: none
	Certainty Certainty
	Feet      float64 // the greatest length on the path; 0 of the last
	Blocker   string  // what keeps it off the easiest path
}

// Taken is how much of the water within reach one thing takes from structures.
type Taken struct {
	Cause   string
	Percent float64
}

// Want is what would settle an outcome that is not known, or not firm.
type Want struct {
	Says string // "A seagrass survey of"
	Of   bool   // the name of a water body follows
}

// class is what a joint outcome is told apart by on maps and in totals, the easiest first.
type class int

const (
	every class = iota // one structure meets the easiest path of every authority
	butOne
	butMore
	noneOf // it meets none, or there is no structure
	notKnown
	noResult
	nobodys
	whoseUnknown
	classes
)

// classOf is the class of an outcome by so many authorities.
func classOf(o *Outcome, authorities int) class {
	j := &o.Joint
	switch {
	case !o.Result:
		return noResult
	case !j.Known || len(j.Open) > 0: // what is not known is neither met nor missed
		return notKnown
	case !j.Structure || len(j.Beyond) == authorities && authorities > 0:
		return noneOf
	case len(j.Beyond) == 0:
		return every
	case len(j.Beyond) == 1:
		return butOne
	}
	return butMore
}

// title is a class in words.
func (c class) title() string {
	return [...]string{
		"the easiest path of every authority", "the easiest path of all authorities but one", "the easiest paths of fewer authorities", "no authority's easiest path",
		"not known", "no result", "nobody's shore", "shore whose owner is not known",
	}[c]
}

// mark is what the drawing of a class is called in the style.
func (c class) mark() string {
	return [...]string{"rank0", "rank1", "rank2", "rank3", "unknown", "lost", "nobody", "unsaid"}[c]
}
