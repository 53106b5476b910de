package site

import (
	"fmt"
	"math"
	"time"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/levels"
)

// ofRecord doubts a value read off the record of a gauge: that is old or of days to come,
// its datum of no epoch, or its levels not those of the station near the site.
func (s *Site) ofRecord(v rules.Value) rules.Value {
	t := s.Layers.Tides
	if t.Record == nil {
		return v
	}
	of, day := t.Record.To, s.Layers.Day
	switch {
	case of.After(day.AddDate(0, 0, 1)):
		v = Doubting(v, fmt.Sprintf("the record of levels runs to %s, after the decision date; check its times", of.Format(time.DateOnly)), 0)
	case of.AddDate(0, layers.AgeOfShores.Months, 0).Before(day):
		v = Doubting(v, fmt.Sprintf("the record of levels ends on %s, older than the %s it may be", of.Format(time.DateOnly), layers.AgeOfShores), 0)
	}
	if t.Timeless {
		v = Doubting(v, fmt.Sprintf("the record's datum, %s, is of no stated epoch; state it (levels.record.epoch)", t.Record.Datum), 0)
	}
	station, away := s.station()
	if station == nil || !(away <= farStation) {
		return v
	}
	off, _ := t.Record.HeightError()
	if mean, err := station.Convert(0, levels.MSL, t.Record.Datum); err == nil && math.Abs(t.Mean-mean) > off+stationOff {
		v = Doubting(v, fmt.Sprintf("the mean of the record is %s %s, and mean sea level at %s, %s, is %s: check the record's datum and unit",
			job.FeetText(t.Mean), t.Record.Datum, station, job.AwayText(away), job.FeetText(mean)), 0)
	}
	if tide, err := station.Convert(0, levels.MHW, levels.MLW); err == nil && t.Reduced != nil && !layers.SameRange(t.Reduced.MN, tide) {
		v = Doubting(v, fmt.Sprintf("the tide of the record goes %s between mean low and mean high water, and at %s, %s, %s: check the record's unit",
			job.FeetText(t.Reduced.MN), station, job.AwayText(away), job.FeetText(tide)), 0)
	}
	return v
}
