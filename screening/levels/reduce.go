package levels

import (
	"fmt"
	"time"
)

// Reduction is the tidal datums of a series itself, by first reduction: plain
// means over it, not brought to an epoch by a control station. Metres above the
// datum of the series.
type Reduction struct {
	HWL, MHHW, MHW, DTL, MTL, MSL, MLW, MLLW, LWL float64
	MN, GT                                        float64 // mean range MHW - MLW, great diurnal range MHHW - MLLW
	DHQ, DLQ                                      float64 // diurnal inequalities MHHW - MHW, MLW - MLLW
	Highs, Lows                                   int     // how many were found
	HWLAt, LWLAt                                  time.Time
}

const (
	// leastRecord is from spring to neap tide; the source of leastRise asks it too.
	leastRecord = 14 * 24 * time.Hour
	// tidalDay is the mean lunar day, two periods of M2 of 12.4206 h.
	tidalDay = 24*time.Hour + 50*time.Minute + 28*time.Second
	// early is how long before the first turn its tidal day begins, a quarter of
	// M2's period: the bounds of the days then lie midway between high waters (or
	// low waters), as far from either as can be.
	early = tidalDay / 8
)

// Reduce picks the tides of a series and averages them.
func (s *Series) Reduce() (*Reduction, error) {
	if err := s.enough(); err != nil {
		return nil, err
	}
	if time.Duration(len(s.Levels))*s.Step < leastRecord {
		return nil, fmt.Errorf("the record is %s long; datums need %s at least", inWords(time.Duration(len(s.Levels))*s.Step), inWords(leastRecord))
	}
	var high, low, higher, lower average
	r := &Reduction{MSL: s.Mean()}
	stretches := s.turns()
	if err := s.torn(stretches); err != nil {
		return nil, err
	}
	for _, stretch := range stretches {
		for _, t := range stretch.Turns {
			switch {
			case t.High:
				if high.n == 0 || t.Level > r.HWL {
					r.HWL, r.HWLAt = t.Level, t.At
				}
				high.add(t.Level)
			default:
				if low.n == 0 || t.Level < r.LWL {
					r.LWL, r.LWLAt = t.Level, t.At
				}
				low.add(t.Level)
			}
		}
		higher.addDaily(stretch, true)
		lower.addDaily(stretch, false)
	}
	r.Highs, r.Lows = high.n, low.n
	if higher.n == 0 || lower.n == 0 {
		return nil, fmt.Errorf("the record shows %d high and %d low waters that rise or fall by %g m and 2 h; it has no tide to speak of", high.n, low.n, leastRise)
	}
	r.MHHW, r.MHW, r.MLW, r.MLLW = higher.mean(), high.mean(), low.mean(), lower.mean()
	r.DTL, r.MTL = (r.MHHW+r.MLLW)/2, (r.MHW+r.MLW)/2
	r.GT, r.MN = r.MHHW-r.MLLW, r.MHW-r.MLW
	r.DHQ, r.DLQ = r.MHHW-r.MHW, r.MLW-r.MLLW
	return r, nil
}

type average struct {
	sum float64
	n   int
}

func (a *average) add(v float64) { a.sum += v; a.n++ }

func (a *average) mean() float64 { return a.sum / float64(a.n) }

// addDaily adds the higher high or the lower low water of each tidal day. The
// last one counts if the record goes on past the second high (or low) water due
// in it, which is three times early before its end.
func (a *average) addDaily(s Stretch, high bool) {
	var end time.Time
	var extreme float64
	for _, t := range s.Turns {
		switch {
		case t.High != high:
			continue
		case end.IsZero():
			end, extreme = t.At.Add(tidalDay-early), t.Level
		case !t.At.Before(end):
			a.add(extreme)
			extreme = t.Level
			for !t.At.Before(end) {
				end = end.Add(tidalDay)
			}
		case t.Level > extreme == high:
			extreme = t.Level
		}
	}
	if !end.IsZero() && !s.Until.Before(end.Add(-2*early)) {
		a.add(extreme)
	}
}
