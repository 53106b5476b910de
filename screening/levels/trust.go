package levels

import (
	"fmt"
	"math"
	"time"
)

const (
	// epoch is the nineteen years over which tidal datums are averaged.
	epoch = 19 * year
	// seasonal is by how much, in metres (0.5 ft), the levels of less than a year may
	// stand off those of all years: the season's swing of the mean level (common
	// practice, no source).
	seasonal = 0.5 * foot
	// ofYears is by how much, in metres (0.16 ft), those of a year or more may: one year
	// put mean high and low water up to 49 mm off those of nineteen, at 14 stations of
	// Florida (predicted here from their published constituents).
	ofYears = 0.16 * foot
	// ofTides is by how much, in metres (0.11 ft), those predicted for nineteen years
	// may: what the prediction was found to keep within at the same stations.
	ofTides = 0.11 * foot
)

// length is how much time a record or prediction spans.
func (e *Exposure) length() time.Duration { return e.To.Sub(e.From) }

// Undecided says why no limit may be judged by the exposure; empty if one may.
func (e *Exposure) Undecided() string {
	switch {
	case e.Way == FromDatums:
		return "only an approximation from datums is known, which decides nothing"
	case e.Way != Predicted && e.length() < leastRecord:
		return fmt.Sprintf("the record is %s long; at least %s, from spring to neap tide, are needed to decide by it", inWords(e.length()), inWords(leastRecord))
	}
	return ""
}

// HeightError is how far, in metres at 95 %, the levels may stand off those of all
// years because they are of the time they are of, and a name of them.
func (e *Exposure) HeightError() (metres float64, of string) {
	switch {
	case e.Way == Predicted:
		return ofTides, "the predicted levels"
	case e.length() < year:
		metres = seasonal
	case e.length() < epoch:
		metres = ofYears
	}
	return metres, fmt.Sprintf("the record of %s", inWords(e.length()))
}

// Bounds are the least and the most percent that an exposure found can be, whatever the
// levels were that are missing: all above the elevation, or all below.
func (e *Exposure) Bounds(percent float64) (least, most float64) {
	least = percent * e.Coverage
	return least, least + 100*(1-e.Coverage)
}

// Exposed is the exposure of a record or a prediction in the way that is the better for
// its step.
func (s *Series) Exposed() (*Exposure, error) {
	if s.Step >= joinedFrom && !s.Predicted {
		return s.crossedExposure()
	}
	return s.Exposure()
}

const (
	// aroundTurn is the time about a turn in which levels missing leave open how high it was,
	// and shut how much of that (common practice, no source: the tide turns within it).
	aroundTurn = time.Hour
	shut       = 30 * time.Minute
)

// torn says why the turns of a record cannot be averaged: those that stand at its gaps
// are most of the high or of the low waters, as where a gauge falls dry.
func (s *Series) torn(stretches []Stretch) error {
	if s.Predicted {
		return nil
	}
	var lost, all [2]int
	for _, stretch := range stretches {
		for _, t := range stretch.Turns {
			k := 0
			if t.High {
				k = 1
			}
			all[k]++
			if s.missing(t.At.Add(-aroundTurn), t.At.Add(aroundTurn)) >= shut {
				lost[k]++
			}
		}
	}
	for k, water := range [2]string{"low", "high"} {
		if 2*lost[k] > all[k] {
			return fmt.Errorf("%d of %d %s waters stand at a gap of the record, so how far the tide goes is not in it; give a stretch that has them", lost[k], all[k], water)
		}
	}
	return nil
}

// missing is for how long levels are missing between two times.
func (s *Series) missing(from, to time.Time) time.Duration {
	n := 0
	first := int(math.Ceil(float64(from.Sub(s.Start)) / float64(s.Step)))
	last := int(math.Floor(float64(to.Sub(s.Start)) / float64(s.Step)))
	for i := max(0, first); i <= min(last, len(s.Levels)-1); i++ {
		if math.IsNaN(s.Levels[i]) {
			n++
		}
	}
	return time.Duration(n) * s.Step
}
