package levels

import (
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

// CanDecide says whether a limit may be judged by it: an approximation may not.
func (e *Exposure) CanDecide() bool { return e.Way != FromDatums }

// Percent of the time in which an elevation is exposed to air, 0 to 100.
func (e *Exposure) Percent(elevation float64) (float64, error) {
	if math.IsNaN(elevation) || math.IsInf(elevation, 0) {
		return math.NaN(), fmt.Errorf("an elevation is needed")
	}
	return e.curve.percent(elevation)
}

// Elevation is the highest that is exposed for no more than a percentage of the
// time, in metres above Datum.
func (e *Exposure) Elevation(percent float64) (float64, error) {
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

// CrossedExposure is the time of a record, its levels joined by straight lines;
// steps with a level missing at either end count neither way. It is the better
// one for hourly records.
func (s *Series) CrossedExposure() (*Exposure, error) {
	e, err := s.exposure(Crossed)
	if err != nil {
		return nil, err
	}
	e.curve = crossed(s.Levels)
	return e, nil
}

func (s *Series) exposure(way Way) (*Exposure, error) {
	if err := s.Enough(); err != nil {
		return nil, err
	}
	return &Exposure{Way: way, Datum: s.Datum, From: s.Start, To: s.End(), Coverage: s.Coverage()}, nil
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

// crossed are levels in time.
type crossed []float64

func (c crossed) percent(elevation float64) (float64, error) {
	below, steps := 0.0, 0
	for i := 1; i < len(c); i++ {
		low, high := math.Min(c[i-1], c[i]), math.Max(c[i-1], c[i])
		if math.IsNaN(low) {
			continue
		}
		steps++
		switch {
		case elevation > high:
			below++
		case elevation > low:
			below += (elevation - low) / (high - low)
		}
	}
	if steps == 0 {
		return math.NaN(), fmt.Errorf("no two levels of the record stand next to each other")
	}
	return 100 * below / float64(steps), nil
}

// fine is how close an elevation is found, in metres.
const fine = 1e-6

func (c crossed) elevation(percent float64) (float64, error) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range c {
		if !math.IsNaN(v) {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	for high-low > fine {
		middle := (low + high) / 2
		p, err := c.percent(middle)
		if err != nil {
			return p, err
		}
		if p <= percent {
			low = middle
		} else {
			high = middle
		}
	}
	return low, nil
}
