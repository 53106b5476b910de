package levels

import (
	"fmt"
	"math"
	"strings"
)

// LivingRow is the band in which oysters live near the site.
type LivingRow struct {
	Top      Height   `json:"top"`
	Bottom   Height   `json:"bottom"`
	Count    int      `json:"places"`
	Nearest  figure   `json:"nearest_m"`
	Farthest figure   `json:"farthest_m"`
	Dates    []string `json:"dates,omitempty"`
	Apart    bool     `json:"differs_from_computed"` // by more than [Apart]
}

// addLiving adds the oysters that live near the site, and says where they differ from
// the band that is computed.
func (t *ExposureTable) addLiving(station *Station, asked Asked) error {
	if len(asked.Clumps) == 0 {
		return nil
	}
	site := asked.Site
	if site == nil && station != nil && station.Place.onEarth() {
		site = &station.Place
	}
	if site == nil {
		return fmt.Errorf("the oysters near the site cannot be found, as no station says where it is; give the site")
	}
	ties := station
	if ties == nil {
		ties = &Station{}
	}
	l, err := LivingNear(*site, asked.Clumps, ties, t.Datum)
	if err != nil {
		return err
	}
	if l == nil {
		t.Mind = append(t.Mind, "no live oysters were measured within a mile of the site")
		return nil
	}
	row := &LivingRow{
		Top: height(l.Top, t.Datum), Bottom: height(l.Bottom, t.Datum), Count: l.Count,
		Nearest: figure(l.Nearest), Farthest: figure(l.Farthest), Dates: l.Dates,
	}
	low, high := float64(t.Targets[0].Metres), float64(t.Targets[len(t.Targets)-1].Metres)
	if !math.IsNaN(low + high) {
		row.Apart = l.Disagrees(high, low)
	}
	if row.Apart {
		t.Mind = append(t.Mind, "oysters live nearby more than 0.5 ft from where they are computed to: the measured heights are to be preferred (common practice, no source)")
	}
	t.Living = row
	return nil
}

func (r *LivingRow) String() string {
	places := fmt.Sprintf("%d places", r.Count)
	if r.Count == 1 {
		places = "1 place"
	}
	on := ""
	if len(r.Dates) > 0 {
		on = ", " + strings.Join(r.Dates, ", ")
	}
	return fmt.Sprintf("from %s to %s ft (%s to %s m) above %s: %s measured %s to %s m away%s", r.Bottom.feet(), r.Top.feet(), r.Bottom.metres(), r.Top.metres(), r.Top.Above,
		places, decimal(float64(r.Nearest), 0), decimal(float64(r.Farthest), 0), on)
}
