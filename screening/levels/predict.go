package levels

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// Constituent is a harmonic constituent of a station.
type Constituent struct {
	Name      string
	Amplitude float64 // m
	Phase     float64 // degrees, referred to Greenwich (the service's phase_GMT)
}

// Tide predicts the tide of a station: the astronomical tide with its mean
// seasonal cycle, no weather, and no rise of the sea since the constituents
// were derived. Node factors are those of the middle of each calendar year
// (UTC), as in the published tables; from one year to the next M2 steps by at
// most 1.3 % of its amplitude.
type Tide struct {
	mean  float64
	datum Datum
	parts []part
}

type part struct {
	*constituent
	amplitude, phase float64
}

// newTide takes constituents and the mean level in metres above the datum in
// which levels are wanted. Constituents without amplitude were not resolved and
// count for nothing.
func newTide(given []Constituent, mean float64) (*Tide, error) {
	t := &Tide{mean: mean}
	seen := map[string]bool{}
	for _, g := range given {
		c := findConstituent(g.Name)
		switch {
		case math.IsNaN(g.Amplitude+g.Phase) || math.IsInf(g.Amplitude+g.Phase, 0) || g.Amplitude < 0:
			return nil, fmt.Errorf("constituent %s has an amplitude of %g m and a phase of %g degrees; give an amplitude of 0 or more and a phase", g.Name, g.Amplitude, g.Phase)
		case g.Amplitude == 0:
			continue
		case c == nil:
			return nil, fmt.Errorf("harmonic constituent %q is not known here; known are %s", g.Name, constituentNames())
		case seen[c.name]:
			return nil, fmt.Errorf("harmonic constituent %s is given twice", c.name)
		}
		seen[c.name] = true
		t.parts = append(t.parts, part{c, g.Amplitude, g.Phase})
	}
	if len(t.parts) == 0 {
		return nil, fmt.Errorf("no harmonic constituent has an amplitude, so there is no tide to predict")
	}
	return t, nil
}

func constituentNames() string {
	names := make([]string, len(constituents))
	for k := range constituents {
		names[k] = constituents[k].name
	}
	return strings.Join(names, " ")
}

// angle is V + u less the phase, in radians.
func (p part) angle(l longitudes, n node) float64 {
	return radians(p.argument(l) + p.shift(n) - p.phase)
}

func midYear(at time.Time) time.Time {
	year := time.Date(at.UTC().Year(), 1, 1, 0, 0, 0, 0, time.UTC)
	return year.Add(year.AddDate(1, 0, 0).Sub(year) / 2)
}

// restart is after how many steps the recurrence begins anew from its exact
// argument. Until then the longitudes move evenly; with the rounding, which
// grows with the square of the steps, that is within 1e-6 m at steps of an hour.
const restart = 240

// levels is the tide from start on, every step, so many times. It costs two
// operations a constituent and step: A cos(a + k d) follows from the two before
// it by 2 cos(d) times the one less the other.
func (t *Tide) levels(start time.Time, step time.Duration, count int) []float64 {
	levels := make([]float64, count)
	for done := 0; done < count; {
		at := start.Add(time.Duration(done) * step)
		yearEnd := time.Date(at.UTC().Year()+1, 1, 1, 0, 0, 0, 0, time.UTC)
		left := int((yearEnd.Sub(at) + step - 1) / step)
		block := levels[done : done+min(restart, left, count-done)]
		l, n := longitudesAt(at), nodeAt(midYear(at))
		for i := range block {
			block[i] = t.mean
		}
		for _, p := range t.parts {
			angle, turn := p.angle(l, n), radians(p.speed()*step.Hours())
			a := p.factor(n) * p.amplitude
			now, next, twice := a*math.Cos(angle), a*math.Cos(angle+turn), 2*math.Cos(turn)
			for i := range block {
				block[i] += now
				now, next = next, twice*next-now
			}
		}
		done += len(block)
	}
	return levels
}

// Series is the tide of a span of time, the end left out.
func (t *Tide) Series(from, until time.Time, step time.Duration) (*Series, error) {
	if step <= 0 || !until.After(from) {
		return nil, fmt.Errorf("a prediction needs a step above 0 and an end after its start")
	}
	count := int((until.Sub(from) + step - 1) / step)
	return &Series{Datum: t.datum, Start: from.UTC(), Step: step, Levels: t.levels(from.UTC(), step, count), Predicted: true}, nil
}

// Years is the tide of whole calendar years (UTC) at six minutes, as the
// service publishes it. An epoch of 19 years covers the cycle of the node; a
// single year can put mean high water 0.14 ft off.
func (t *Tide) Years(first, last int) (*Series, error) {
	return t.Series(time.Date(first, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(last+1, 1, 1, 0, 0, 0, 0, time.UTC), 6*time.Minute)
}
