package site

import (
	"fmt"
	"math"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/levels"
)

const (
	// farStation is how far off a station may be for its datums to be taken as those of
	// the site: 10 miles; common practice, no source.
	farStation = 10 * job.Mile
	// levelsAlike is how many times as far as the nearest a station may be and still have as
	// much to say: moving the site a little, it would be the nearest. Common practice, no
	// source.
	levelsAlike = 2
	// stationOff is by how much the elevation of a tidal line and that of its plane at the
	// station may differ: 0.3 ft; common practice, no source. Within a sound mean high
	// water bends by some tenths of a foot; a mix of datums or epochs shows more.
	stationOff = 0.3 * job.Foot
)

// atStation doubts a value that was read off a station far from the site.
func (s *Site) atStation(v rules.Value, station *layers.TideStation) rules.Value {
	if station == nil || v.Unknown != "" {
		return v
	}
	switch away := s.place().Distance(station.Place); {
	case math.IsNaN(away):
		return Doubting(v, fmt.Sprintf("%s does not say where it is; state it, to show that it is of this shore", station), 0)
	case away > farStation:
		return Doubting(v, fmt.Sprintf("%s is %s, and datums carry %s at most; name a nearer one", station, job.AwayText(away), job.MilesText(farStation)), 0)
	}
	return v
}

// beside are the other stations that are about as near to the site as the one used; none
// if the proposal names its own.
func (s *Site) beside(used *layers.TideStation, wanted func(*levels.Station) bool) []*layers.TideStation {
	if used == nil || s.Proposal.Words["station"] != "" {
		return nil
	}
	within := math.Min(farStation, levelsAlike*s.place().Distance(used.Place))
	var out []*layers.TideStation
	for _, other := range s.Layers.Tides.Stations {
		if other != used && wanted(other.Station) && s.place().Distance(other.Place) <= within {
			out = append(out, other)
		}
	}
	return out
}

// otherwise says what comes of another station.
func (s *Site) otherwise(other *layers.TideStation, what string) string {
	return fmt.Sprintf("by %s, %s, %s; say which station is that of the site", other, job.AwayText(s.place().Distance(other.Place)), what)
}

// byOthers adds what a value is that other stations than the one used put at another
// height; at makes it of a station.
func (s *Site) byOthers(v *rules.Value, used *layers.TideStation, at func(*layers.TideStation) (float64, string), title string) {
	for _, other := range s.beside(used, func(*levels.Station) bool { return true }) {
		if over, why := at(other); why == "" {
			v.Also = append(v.Also, rules.Also{Number: over, Says: s.otherwise(other, fmt.Sprintf("it stands %s above %s", job.FeetText(over), title))})
		}
	}
}

// besideStation doubts a height over a tidal line that a station near it puts elsewhere,
// or whose epoch nobody can set against the station's.
func (s *Site) besideStation(v rules.Value, l level, line layers.Attributes) rules.Value {
	station, away := s.station()
	of, err := levels.ParseDatum(l.layer.Source.Datum)
	if station == nil || err != nil || !(away <= farStation) {
		return v
	}
	if plane, err := station.Convert(0, levels.Datum(l.name), of); err == nil && math.Abs(plane-line.Elevation) > stationOff {
		v = Doubting(v, fmt.Sprintf("%s lies at %s %s by its line (%s) and at %s by %s, %s: check the line's elevation and its datum",
			l.title, job.FeetText(line.Elevation), of, line.Label, job.FeetText(plane), station, job.AwayText(away)), 0)
	}
	if l.layer.Source.Epoch == "" {
		v = Doubting(v, fmt.Sprintf("the epoch of %s is not stated, and that of %s is %s; state the line's", l.layer.Title, station, station.Epoch), rules.UnstatedHeight)
	}
	return v
}

// offHeights adds what a value would be if heights were off, as far as they may be, and
// how well they are known; at gives it where the proposal stands higher by so much.
func (s *Site) offHeights(v *rules.Value, of string, other float64, at func(by float64) float64) {
	v.Accuracy = s.ofHeights(of, other)
	tolerance, _ := v.Accuracy[0].Tolerance()
	tried(v, math.Max(tolerance, rules.UnstatedHeight), at)
}

// steps is in how many steps each way what a value hangs on is tried.
const steps = 12

// tried adds what a value would be were what it hangs on off by up to so many metres,
// either way.
func tried(v *rules.Value, reach float64, at func(by float64) float64) {
	for i := 1; i <= steps; i++ {
		by := float64(i) / steps * reach
		// The change is somewhere in the step, at the soonest where it begins.
		shift := math.Max(nudge, by-reach/steps)
		v.Also = append(v.Also, rules.Also{Number: at(-by), Shift: shift}, rules.Also{Number: at(by), Shift: shift})
	}
}
