package levels

import (
	"fmt"
	"math"
	"strings"
)

// Class is the class of tide by F = (K1 + O1) / (M2 + S2), of amplitudes.
type Class string

const (
	Semidiurnal      Class = "semidiurnal"               // F < 0.25
	MixedSemidiurnal Class = "mixed, mainly semidiurnal" // 0.25 to 1.5
	MixedDiurnal     Class = "mixed, mainly diurnal"     // 1.5 to 3
	Diurnal          Class = "diurnal"                   // F >= 3
)

// datumOrder is the order of the percentages in exposedAt, from low to high.
var datumOrder = [5]Datum{MLLW, MLW, MSL, MHW, MHHW}

// exposedAt is the percent of time for which the datums of datumOrder are
// exposed: means over 207 tide stations of Florida, by class, of hourly
// predictions for 1992. Single stations spread by up to 6 points about them
// (one standard deviation).
var exposedAt = map[Class][5]float64{
	Semidiurnal:      {7.5, 10.7, 49.8, 89.2, 92.2},
	MixedSemidiurnal: {5.7, 13.0, 49.0, 87.9, 94.0},
	MixedDiurnal:     {7.6, 18.3, 46.4, 84.1, 91.3},
	Diurnal:          {11.9, 14.4, 50.0, 85.4, 88.2},
}

// classPoints is by how many points the table is taken to be off.
const classPoints = 10

// ParseClass reads a class as it is printed.
func ParseClass(text string) (Class, error) {
	for _, c := range []Class{Semidiurnal, MixedSemidiurnal, MixedDiurnal, Diurnal} {
		if strings.EqualFold(strings.TrimSpace(text), string(c)) {
			return c, nil
		}
	}
	return "", fmt.Errorf("%q is not a class of tide; give %q, %q, %q or %q", text, Semidiurnal, MixedSemidiurnal, MixedDiurnal, Diurnal)
}

// roughExposure is the exposure by the table of a class of tide, straight
// between the datums. It is approximate and decides nothing. Below MLLW and
// above MHHW it knows nothing.
func (s *Station) roughExposure(class Class, above Datum) (*Exposure, error) {
	table, known := exposedAt[class]
	if !known {
		return nil, fmt.Errorf("the class of tide is not stated")
	}
	c := classed{class: class}
	for k, d := range datumOrder {
		level, err := s.Convert(0, d, above)
		if err != nil {
			return nil, err
		}
		c.points[k] = point{level, table[k]}
		if k > 0 && level <= c.points[k-1].elevation {
			return nil, fmt.Errorf("%s has %s no higher than %s, so nothing can be read between them", s, d, datumOrder[k-1])
		}
	}
	return &Exposure{Way: FromDatums, Datum: above, Coverage: 1, Points: classPoints, curve: c}, nil
}

type point struct{ elevation, percent float64 }

type classed struct {
	class  Class
	points [5]point
}

func (c classed) percent(elevation float64) (float64, error) {
	for k, p := range c.points {
		switch {
		case elevation == p.elevation:
			return p.percent, nil
		case elevation < p.elevation && k > 0:
			q := c.points[k-1]
			return q.percent + (p.percent-q.percent)*(elevation-q.elevation)/(p.elevation-q.elevation), nil
		case elevation < p.elevation:
			return math.NaN(), fmt.Errorf("the elevation is below MLLW, of which tidal datums only tell that it is exposed for less than about %g %% of the time (%s tide)", p.percent, c.class)
		}
	}
	return math.NaN(), fmt.Errorf("the elevation is above MHHW, of which tidal datums only tell that it is exposed for more than about %g %% of the time (%s tide)", c.points[4].percent, c.class)
}

func (c classed) elevation(percent float64) (float64, error) {
	for k, p := range c.points {
		switch {
		case percent == p.percent:
			return p.elevation, nil
		case percent < p.percent && k > 0:
			q := c.points[k-1]
			return q.elevation + (p.elevation-q.elevation)*(percent-q.percent)/(p.percent-q.percent), nil
		case percent < p.percent:
			return math.NaN(), fmt.Errorf("%g %% of the time is the exposure of an elevation below MLLW, of which tidal datums tell no more (%s tide)", percent, c.class)
		}
	}
	return math.NaN(), fmt.Errorf("%g %% of the time is the exposure of an elevation above MHHW, of which tidal datums tell no more (%s tide)", percent, c.class)
}
