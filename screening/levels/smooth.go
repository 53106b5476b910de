package levels

import (
	"math"
	"slices"
	"time"
)

// What is quicker than quickest cycles a day is no tide to be picked; the
// filter that takes it out is a Butterworth of order 2 len(quality), run forth
// and back. Both after NOAA's Tidal Analysis Datum Calculator.
const quickest = 4

// quality is Q of each second-order section of a Butterworth filter of order 6.
var quality = [3]float64{1 / (2 * math.Cos(math.Pi/12)), 1 / (2 * math.Cos(3*math.Pi/12)), 1 / (2 * math.Cos(5*math.Pi/12))}

// lowPass are the levels freed of what is quicker than quickest, without a
// shift in time. A record too coarse to hold anything quicker is left as it is.
func lowPass(levels []float64, step time.Duration) []float64 {
	perStep := quickest * step.Hours() / 24
	if perStep >= 0.5 || len(levels) < 2 {
		return levels
	}
	// The ends are continued through themselves, turned about, for a day.
	pad := min(int(24*time.Hour/step), len(levels)-1)
	n := len(levels)
	long := make([]float64, 0, n+2*pad)
	for k := pad; k > 0; k-- {
		long = append(long, 2*levels[0]-levels[k])
	}
	long = append(long, levels...)
	for k := 1; k <= pad; k++ {
		long = append(long, 2*levels[n-1]-levels[n-1-k])
	}
	for range 2 {
		for _, q := range quality {
			section(long, perStep, q)
		}
		slices.Reverse(long)
	}
	return long[pad : pad+n]
}

// section runs a second-order low pass over the levels in place; frequency is
// in cycles a step. It starts at rest on the first level.
func section(levels []float64, frequency, q float64) {
	k := math.Tan(math.Pi * frequency)
	norm := 1 / (1 + k/q + k*k)
	b := k * k * norm
	a1, a2 := 2*(k*k-1)*norm, (1-k/q+k*k)*norm
	x1, y1 := levels[0], levels[0]
	x2, y2 := x1, y1
	for i, x := range levels {
		y := b*(x+2*x1+x2) - a1*y1 - a2*y2
		x2, x1, y2, y1 = x1, x, y1, y
		levels[i] = y
	}
}

// fitWindow is how wide a cubic is laid about a turn, for steps of a quarter of
// an hour and more; finer ones allow a narrower one where the tide is large.
const fitWindow = 6*time.Hour + 30*time.Minute

// fit puts a turn at the extreme of a cubic fitted to the levels about it (the
// same source).
func (t *Turn) fit(r run, s *Series) {
	at := int(t.At.Sub(s.Start)/s.Step) - r.first
	from, to := about(at, fitWindow, s.Step, len(r.levels))
	if s.Step < 15*time.Minute {
		from, to = about(at, fineWindow(r.levels[from:to]), s.Step, len(r.levels))
	}
	if to-from < 5 {
		return
	}
	// Times scaled to about -1 to 1, so that the equations are well posed.
	scale := float64(max(at-from, to-1-at))
	x := func(i int) float64 { return float64(i-at) / scale }
	cubic := fitCubic(r.levels[from:to], func(k int) float64 { return x(from + k) })
	best, place := 0.0, -1
	for i := from; i < to; i++ {
		v := cubic[0] + x(i)*(cubic[1]+x(i)*(cubic[2]+x(i)*cubic[3]))
		if place < 0 || (v > best) == t.High && v != best {
			best, place = v, i
		}
	}
	t.Level, t.At = best, s.Start.Add(time.Duration(r.first+place)*s.Step)
}

// fineWindow narrows the window from six and a half hours at a range of half a
// metre to two and a half at a metre and more; below half a metre it is narrow
// too, as the source has it.
func fineWindow(levels []float64) time.Duration {
	rise := math.Min(1, slices.Max(levels)-slices.Min(levels))
	if rise < 0.5 {
		rise = 1
	}
	return fitWindow - time.Duration((rise-0.5)*8*float64(time.Hour))
}

func about(at int, width, step time.Duration, n int) (from, to int) {
	reach := int(width / 2 / step)
	return max(0, at-reach), min(n, at+reach+1)
}

// fitCubic is the cubic of least squares, its coefficients from the constant up.
func fitCubic(y []float64, x func(int) float64) (c [4]float64) {
	var m [4][5]float64
	for k, v := range y {
		p := [4]float64{1, x(k), x(k) * x(k), x(k) * x(k) * x(k)}
		for i := range 4 {
			for j := range 4 {
				m[i][j] += p[i] * p[j]
			}
			m[i][4] += p[i] * v
		}
	}
	for i := range 4 { // the matrix is positive definite: no pivots needed
		for j := i + 1; j < 4; j++ {
			f := m[j][i] / m[i][i]
			for k := i; k < 5; k++ {
				m[j][k] -= f * m[i][k]
			}
		}
	}
	for i := 3; i >= 0; i-- {
		c[i] = m[i][4]
		for j := i + 1; j < 4; j++ {
			c[i] -= m[i][j] * c[j]
		}
		c[i] /= m[i][i]
	}
	return c
}
