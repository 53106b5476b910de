package screening

import (
	"fmt"
	"math"
	"time"

	"waterward/rules"
	"waterward/screening/levels"
)

// ofRecord doubts a value read off the record of a gauge: that is old or of days to come,
// its datum of no epoch, or its levels not those of the station near the site.
func (s *site) ofRecord(v rules.Value) rules.Value {
	t := s.layers.tides
	if t.record == nil {
		return v
	}
	of, day := t.record.To, s.layers.day
	switch {
	case of.After(day.AddDate(0, 0, 1)):
		v = doubting(v, fmt.Sprintf("the record of levels runs to %s, after the decision date; check its times", of.Format(time.DateOnly)), 0)
	case of.AddDate(0, ageOfShores.Months, 0).Before(day):
		v = doubting(v, fmt.Sprintf("the record of levels ends on %s, older than the %s it may be", of.Format(time.DateOnly), ageOfShores), 0)
	}
	if t.timeless {
		v = doubting(v, fmt.Sprintf("the record's datum, %s, is of no stated epoch; state it (levels.record.epoch)", t.record.Datum), 0)
	}
	station, away := s.station()
	if station == nil || !(away <= farStation) {
		return v
	}
	off, _ := t.record.HeightError()
	if mean, err := station.Convert(0, levels.MSL, t.record.Datum); err == nil && math.Abs(t.mean-mean) > off+stationOff {
		v = doubting(v, fmt.Sprintf("the mean of the record is %s %s, and mean sea level at %s, %s, is %s: check the record's datum and unit",
			feetText(t.mean), t.record.Datum, station, awayText(away), feetText(mean)), 0)
	}
	if tide, err := station.Convert(0, levels.MHW, levels.MLW); err == nil && t.reduced != nil && !sameRange(t.reduced.MN, tide) {
		v = doubting(v, fmt.Sprintf("the tide of the record goes %s between mean low and mean high water, and at %s, %s, %s: check the record's unit",
			feetText(t.reduced.MN), station, awayText(away), feetText(tide)), 0)
	}
	return v
}
