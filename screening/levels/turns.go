package levels

import (
	"math"
	"time"
)

// Turn is a high or a low water.
type Turn struct {
	At    time.Time
	Level float64 // m above the datum of the series
	High  bool
}

// Stretch is the turns of an unbroken stretch of a series, which ends at Until.
type Stretch struct {
	Until time.Time
	Turns []Turn
}

// What two neighbouring turns must differ by to be tides, after NOAA's Tidal
// Analysis Datum Calculator, which is US Government work.
const (
	leastInterval = 2 * time.Hour
	leastRise     = 0.03 // m
)

// unbroken is how long a gap may be to be bridged; at a longer one the record
// is taken apart (the same source).
const unbroken = 3 * time.Hour

// turns are the high and low waters of each unbroken stretch of the series.
//
// A prediction turns where its levels do. In an observed record tides are found
// in the levels freed of what is quicker than a quarter of a day, and their
// height is the extreme of a cubic fitted to the levels about them, so that
// waves and the noise of the gauge do not raise the high waters.
func (s *Series) turns() []Stretch {
	if s.Predicted {
		return []Stretch{{s.end(), tides(s.turning(s.Levels, s.Levels, 0))}}
	}
	var all []Stretch
	for _, r := range s.runs() {
		turns := tides(s.turning(lowPass(r.levels, s.Step), r.levels, r.first))
		for i := range turns {
			turns[i].fit(r, s)
		}
		all = append(all, Stretch{s.Start.Add(time.Duration(r.first+len(r.levels)-1) * s.Step), turns})
	}
	return all
}

// run is an unbroken stretch of a series, from its level first on.
type run struct {
	first  int
	levels []float64
}

// runs are the stretches without a gap too long to bridge; shorter gaps are
// bridged by straight lines.
func (s *Series) runs() []run {
	var runs []run
	last := -1 // the last level that is there
	for i, v := range s.Levels {
		if math.IsNaN(v) {
			continue
		}
		if last < 0 || (i-last > 1 && time.Duration(i-last)*s.Step > unbroken) {
			runs = append(runs, run{first: i})
			last = i - 1
		}
		r := &runs[len(runs)-1]
		for k := last + 1; k < i; k++ {
			r.levels = append(r.levels, s.Levels[last]+(v-s.Levels[last])*float64(k-last)/float64(i-last))
		}
		r.levels = append(r.levels, v)
		last = i
	}
	return runs
}

// turning are the local extremes of a shape, the first of equal levels, highs
// and lows by turns, with the levels there; first is the place in the series.
func (s *Series) turning(shape, levels []float64, first int) []Turn {
	var turns []Turn
	rising, since := 0, 0
	for i := 1; i < len(shape); i++ {
		now := 0
		switch {
		case shape[i] > shape[i-1]:
			now = 1
		case shape[i] < shape[i-1]:
			now = -1
		default:
			continue
		}
		if rising != 0 && now != rising {
			turns = append(turns, Turn{s.Start.Add(time.Duration(first+since) * s.Step), levels[since], rising > 0})
		}
		rising, since = now, i
	}
	return turns
}

// tides keeps the turns that are tides: of two opposite ones too near in time
// or height neither, of two alike too near in time the first.
func tides(turns []Turn) []Turn {
	var kept []Turn
	for i := 0; i < len(turns); {
		a, j := turns[i], i+1
		for j < len(turns) && turns[j].High == a.High && turns[j].At.Sub(a.At) < leastInterval {
			j++
		}
		if j < len(turns) && turns[j].High != a.High && (turns[j].At.Sub(a.At) < leastInterval || math.Abs(turns[j].Level-a.Level) < leastRise) {
			i = j + 1
			continue
		}
		kept = append(kept, a)
		i = j
	}
	return kept
}
