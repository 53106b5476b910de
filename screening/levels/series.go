package levels

import (
	"fmt"
	"math"
	"time"
)

// Series is a record of water levels at even steps.
type Series struct {
	Datum     Datum
	Start     time.Time     // UTC
	Step      time.Duration // between levels
	Levels    []float64     // m above Datum; NaN where there is none
	Predicted bool          // free of weather, waves and gaps
	Notes     []string      // what was found when it was read
}

// minCoverage is the share of the expected levels below which nothing is made
// of a record: gauges fail in storms and at extreme levels, so what is missing
// is not like what is there. Common practice, no source.
const minCoverage = 0.90

// end is the time of the last level.
func (s *Series) end() time.Time { return s.Start.Add(time.Duration(len(s.Levels)-1) * s.Step) }

// valid is how many levels there are.
func (s *Series) valid() int {
	n := 0
	for _, v := range s.Levels {
		if !math.IsNaN(v) {
			n++
		}
	}
	return n
}

// coverage is the share of the expected levels that are there, 0 to 1.
func (s *Series) coverage() float64 {
	return float64(s.valid()) / float64(len(s.Levels))
}

// enough says why nothing may be made of a record.
func (s *Series) enough() error {
	if valid := s.valid(); float64(valid) < minCoverage*float64(len(s.Levels)) || valid < 2 {
		return fmt.Errorf("the record covers %.1f %% of its span (%d of %d levels, %s); at least %.0f %% is needed: give a stretch without its gaps",
			100*s.coverage(), valid, len(s.Levels), s.Span(), 100*minCoverage)
	}
	return nil
}

// Span is the record in words: its first and last time and its step.
func (s *Series) Span() string {
	return fmt.Sprintf("%s to %s UTC every %s", s.Start.Format(minuteLayout), s.end().Format(minuteLayout), inWords(s.Step))
}

// Mean is the mean of the levels, in metres above Datum.
func (s *Series) Mean() float64 {
	sum := 0.0
	for _, v := range s.Levels {
		if !math.IsNaN(v) {
			sum += v
		}
	}
	return sum / float64(s.valid())
}

// longestGap is the longest stretch without levels, and when it starts.
func (s *Series) longestGap() (time.Duration, time.Time) {
	longest, from, run := 0, 0, 0
	for i, v := range s.Levels {
		if !math.IsNaN(v) {
			run = 0
			continue
		}
		if run++; run > longest {
			longest, from = run, i-run+1
		}
	}
	return time.Duration(longest) * s.Step, s.Start.Add(time.Duration(from) * s.Step)
}

func inWords(d time.Duration) string {
	switch {
	case d >= 48*time.Hour:
		return fmt.Sprintf("%.4g days", d.Hours()/24)
	case d >= time.Hour:
		return fmt.Sprintf("%.4g h", d.Hours())
	}
	return fmt.Sprintf("%.4g min", d.Minutes())
}
