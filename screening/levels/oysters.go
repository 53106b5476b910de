package levels

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Clump is a clump of live oysters measured on a piling or another hard thing.
type Clump struct {
	Label       string // how a message names it, such as "line 4"
	Place       Place
	Top, Bottom float64 // m above Datum
	Datum       Datum
	Date        string // as given; blank if not
}

// check says what is wrong with a clump as it was given.
func (c Clump) check() error {
	switch {
	case !c.Place.onEarth():
		return fmt.Errorf("longitude %g and latitude %g are no place", c.Place.Lon, c.Place.Lat)
	case c.Datum == "":
		return fmt.Errorf("the elevations have no datum; state it")
	case math.IsNaN(c.Top+c.Bottom) || math.IsInf(c.Top+c.Bottom, 0):
		return fmt.Errorf("top and bottom are both needed, as numbers")
	case math.Abs(c.Top) > Highest || math.Abs(c.Bottom) > Highest:
		return fmt.Errorf("top %g m and bottom %g m: no tidal shore lies so far from its datum", c.Top, c.Bottom)
	case c.Top <= c.Bottom:
		return fmt.Errorf("the top is not above the bottom")
	}
	return nil
}

// Living is the band of elevations in which oysters live near a site.
type Living struct {
	Top, Bottom       float64 // mean of the clumps, m above Datum
	Datum             Datum
	Count             int
	Nearest, Farthest float64 // m from the site
	Dates             []string
}

// The nearest clumpsAsked clumps, none farther than clumpsWithin metres (one mile),
// stand for a site; common practice, no source.
const (
	clumpsAsked  = 5
	clumpsWithin = 1609.344
)

// LivingNear is the band of the clumps nearest to a site; nil if none is near it. The
// station ties their datums to the one wanted.
func LivingNear(site Place, clumps []Clump, station *Station, above Datum) (*Living, error) {
	type near struct {
		Clump
		distance float64
	}
	var by []near
	for _, c := range clumps {
		if d := site.Distance(c.Place); d <= clumpsWithin {
			by = append(by, near{c, d})
		}
	}
	if len(by) == 0 {
		return nil, nil
	}
	slices.SortStableFunc(by, func(a, b near) int { return cmp.Compare(a.distance, b.distance) })
	by = by[:min(clumpsAsked, len(by))]
	l := &Living{Datum: above, Count: len(by), Nearest: by[0].distance, Farthest: by[len(by)-1].distance}
	var top, bottom average
	for _, c := range by {
		shift, err := station.Convert(0, c.Datum, above)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.Label, err)
		}
		top.add(c.Top + shift)
		bottom.add(c.Bottom + shift)
		if c.Date != "" && !slices.Contains(l.Dates, c.Date) {
			l.Dates = append(l.Dates, c.Date)
		}
	}
	l.Top, l.Bottom = top.mean(), bottom.mean()
	return l, nil
}

// apart is how far two bands of elevation may differ at an end before it is
// said, and the measured one preferred, in metres: 0.5 ft, common practice, no
// source.
const apart = 0.5 * foot

// Disagrees says whether a computed band differs from the living one by more
// than Apart at either end, both in the datum of l.
func (l *Living) Disagrees(top, bottom float64) bool {
	// 1e-9 m: a half foot made of differences of decimals is still a half foot.
	return math.Max(math.Abs(l.Top-top), math.Abs(l.Bottom-bottom)) > apart+1e-9
}
