package levels

// Band is a range of time exposed to air, by what oysters make of it.
type Band string

const (
	TooLow     Band = "too low: fouled and preyed upon"
	LowMargin  Band = "low margin"
	BestGrowth Band = "best growth"
	HighMargin Band = "high margin"
	TooHigh    Band = "too high: too long in the air"
)

// BandLimits are the percentages of time that part the bands, from low to high.
// Oysters generally survive between 10 and 55 % and do best at 20 to 40 %:
// common practice, after growth on reefs of North Carolina (Ridge et al. 2015,
// Scientific Reports 5:14785, by its abstract). Growth where the sea has less
// tide than wind, as in closed lagoons, may follow neither.
var BandLimits = [4]float64{10, 20, 40, 55}

// BandOf is the band of a percentage. The limits belong to the better band on
// either side: 10 and 55 survive, 20 and 40 are best.
func BandOf(percent float64) Band {
	switch {
	case percent < BandLimits[0]:
		return TooLow
	case percent < BandLimits[1]:
		return LowMargin
	case percent <= BandLimits[2]:
		return BestGrowth
	case percent <= BandLimits[3]:
		return HighMargin
	}
	return TooHigh
}

// Targets are the elevations of BandLimits, each with its reason if unknown.
func (e *Exposure) Targets() [4]Elevation {
	var targets [4]Elevation
	for k, percent := range BandLimits {
		v, err := e.elevation(percent)
		targets[k] = Elevation{Datum: e.Datum, Metres: v}
		if err != nil {
			targets[k].Unknown = err.Error()
		}
	}
	return targets
}
