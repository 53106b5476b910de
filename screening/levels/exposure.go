package levels

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"
)

// Way is how the time exposed to air was found. It is named with every answer.
type Way string

const (
	Counted    Way = "observed, counting levels"           // the share of the levels of a record below an elevation
	Crossed    Way = "observed, linear between levels"     // the share of its time, levels joined by straight lines
	Predicted  Way = "predicted from constituents"         // the share of the levels of a prediction
	FromDatums Way = "approximate, from tidal datums only" // a table of the class of tide
)

// Exposure is how much of the time elevations are out of the water: exposed is
// the time in which the level is lower.
type Exposure struct {
	Way      Way
	Datum    Datum     // elevations are metres above it
	From, To time.Time // of the record or prediction; zero if from datums
	Coverage float64   // of the record, 0 to 1; 1 if predicted or from datums
	Points   float64   // percentage points by which it may be off; 0 if not known
	curve    curve
}

// curve is percent below an elevation, which never falls with it, and the
// highest elevation that is exposed for no more than a percentage.
type curve interface {
	percent(elevation float64) (float64, error)
	elevation(percent float64) (float64, error)
}

// Percent of the time in which an elevation is exposed to air, 0 to 100.
func (e *Exposure) Percent(elevation float64) (float64, error) {
	if math.IsNaN(elevation) || math.IsInf(elevation, 0) {
		return math.NaN(), fmt.Errorf("an elevation is needed")
	}
	return e.curve.percent(elevation)
}

// elevation is the highest that is exposed for no more than a percentage of the
// time, in metres above Datum.
func (e *Exposure) elevation(percent float64) (float64, error) {
	if !(percent > 0 && percent < 100) {
		return math.NaN(), fmt.Errorf("%g %% exposed: give more than 0 and less than 100", percent)
	}
	return e.curve.elevation(percent)
}

// Exposure counts the levels of a record or a prediction. Levels in a record
// missing count neither way.
func (s *Series) Exposure() (*Exposure, error) {
	e, err := s.exposure(Counted)
	if err != nil {
		return nil, err
	}
	if s.Predicted {
		e.Way = Predicted
	}
	sorted := make(counted, 0, len(s.Levels))
	for _, v := range s.Levels {
		if !math.IsNaN(v) {
			sorted = append(sorted, v)
		}
	}
	slices.Sort(sorted)
	e.curve = sorted
	return e, nil
}

// crossedExposure is the time of a record, its levels joined by straight lines;
// steps with a level missing at either end count neither way. It is the better
// one for hourly records.
func (s *Series) crossedExposure() (*Exposure, error) {
	e, err := s.exposure(Crossed)
	if err != nil {
		return nil, err
	}
	e.curve = crossing(s.Levels)
	return e, nil
}

func (s *Series) exposure(way Way) (*Exposure, error) {
	if err := s.enough(); err != nil {
		return nil, err
	}
	return &Exposure{Way: way, Datum: s.Datum, From: s.Start, To: s.end(), Coverage: s.coverage()}, nil
}

// counted are levels in order.
type counted []float64

func (c counted) percent(elevation float64) (float64, error) {
	below, _ := slices.BinarySearch(c, elevation)
	return 100 * float64(below) / float64(len(c)), nil
}

func (c counted) elevation(percent float64) (float64, error) {
	// 1e-9 keeps a percentage that is a whole number of levels from losing one.
	return c[int(percent/100*float64(len(c))+1e-9)], nil
}

// crossed is the time below an elevation, levels joined by straight lines: between two
// of its bends it grows evenly with the elevation.
type crossed []bend

// bend is where the time below an elevation changes how it grows.
type bend struct {
	level  float64
	before float64 // steps below the level, up to it
	after  float64 // and just over it: more by those that stand at it
	growth float64 // steps a metre, from there to the next
}

// crossing makes the bends of levels in time.
func crossing(levels []float64) crossed {
	type change struct{ level, growth, jump float64 }
	var changes []change
	for i := 1; i < len(levels); i++ {
		low, high := math.Min(levels[i-1], levels[i]), math.Max(levels[i-1], levels[i])
		if math.IsNaN(low) {
			continue
		}
		if high-low < fine {
			changes = append(changes, change{high, 0, 1})
			continue
		}
		growth := 1 / (high - low)
		changes = append(changes, change{low, growth, 0}, change{high, -growth, 0})
	}
	slices.SortFunc(changes, func(a, b change) int { return cmp.Compare(a.level, b.level) })
	var c crossed
	for _, x := range changes {
		if n := len(c); n == 0 || c[n-1].level != x.level {
			b := bend{level: x.level}
			if n > 0 {
				b.before, b.growth = c.between(n-1, x.level), c[n-1].growth
			}
			b.after = b.before
			c = append(c, b)
		}
		last := &c[len(c)-1]
		last.after += x.jump
		last.growth += x.growth
	}
	return c
}

// between is the steps below an elevation from bend i to the next.
func (c crossed) between(i int, elevation float64) float64 {
	return c[i].after + math.Max(0, c[i].growth)*(elevation-c[i].level)
}

// below is the steps below an elevation.
func (c crossed) below(elevation float64) float64 {
	next, at := slices.BinarySearchFunc(c, elevation, func(b bend, level float64) int { return cmp.Compare(b.level, level) })
	switch {
	case at:
		return c[next].before
	case next == 0:
		return 0
	case next == len(c):
		return c[next-1].after
	}
	return math.Min(c.between(next-1, elevation), c[next].before)
}

func (c crossed) percent(elevation float64) (float64, error) {
	return 100 * c.below(elevation) / c[len(c)-1].after, nil
}

// fine is how close an elevation is found, in metres.
const fine = 1e-6

func (c crossed) elevation(percent float64) (float64, error) {
	low, high := c[0].level, c[len(c)-1].level
	for high-low > fine {
		middle := (low + high) / 2
		if p, _ := c.percent(middle); p <= percent {
			low = middle
		} else {
			high = middle
		}
	}
	return low, nil
}
