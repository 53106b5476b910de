package site

import (
	"fmt"
	"math"
	"strings"

	"waterward/geo"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/levels"
)

// level is a tidal plane to which an elevation can be tied.
type level struct {
	name  string // as a datum is written
	title string
	layer *layers.Layer
	bank  *geo.Bank // nil if not known here
}

func (s *Site) meanHigh() level {
	return level{"MHW", "mean high water", s.Layers.Layer("high_water"), s.Bank}
}

func (s *Site) meanLow() level {
	return level{"MLW", "mean low water", s.Layers.Layer("low_water"), s.Low}
}

// over is how far an elevation of the proposal lies over a tidal plane, in one
// vertical datum or unknown; what says whose elevation it is.
func (s *Site) over(l level, elevation float64, what string) rules.Value {
	datum, orAbove := s.Proposal.Words["datum"], ", or above "+l.name
	if what == "fill" { // which is set against two planes
		orAbove = ""
	}
	switch {
	case datum == "":
		return Unknown("the %s elevation has no datum; state it", what)
	case strings.EqualFold(datum, l.name):
		return rules.Value{Number: elevation, Accuracy: s.ofHeights(l.title, 0)}
	case l.bank == nil:
		if v, why := s.overStation(l, elevation, what); why == "" {
			return v
		}
		return Unknown("no %s line is known here, so neither is its elevation", l.title)
	}
	line := l.layer.Items[l.bank.Lines.Item(s.nearestOn(l.bank.Lines).Foot)]
	of := l.layer.Source.Datum
	switch {
	case line.Refused != "":
		return Unknown("the elevation of the %s line %s cannot be used: %s", l.title, line.Label, line.Refused)
	case math.IsNaN(line.Elevation):
		if v, why := s.overStation(l, elevation, what); why == "" {
			return v
		} else if s.Layers.Tides != nil {
			return Unknown("the %s line %s has no elevation_ft, and %s", l.title, line.Label, why)
		}
		return Unknown("the %s line %s has no elevation_ft, so a %s in %s cannot be set against it; give a tie%s", l.title, line.Label, what, datum, orAbove)
	case of == "":
		return Unknown("the elevation of the %s line has no datum; state it in the job", l.title)
	}
	v := s.overPieces(l, elevation)
	v = s.besideStation(v, l, line)
	if strings.EqualFold(of, datum) {
		return v
	}
	if plane, in := s.lineOf(datum); strings.EqualFold(of, in) {
		return raised(v, plane)
	}
	to, err := levels.ParseDatum(of)
	if err != nil || s.Layers.Tides == nil {
		return Unknown("the %s is in %s and the elevation of %s in %s; give the %s in %s%s", what, datum, l.title, of, what, of, orAbove)
	}
	station, distance := s.station()
	at, why := s.inDatum(station, elevation, to, what)
	if why != "" {
		return Unknown("%s", why)
	}
	v.Accuracy = append(v.Accuracy, s.ofStation(station))
	v = raised(v, at-elevation)
	v.Detail = fmt.Sprintf("from %s to %s by %s, %s", datum, of, station, job.AwayText(distance))
	s.byOthers(&v, station, func(other *layers.TideStation) (float64, string) {
		at, why := s.inDatum(other, elevation, to, what)
		return at - line.Elevation, why
	}, l.title)
	return s.atStation(v, station)
}

// lineOf is the elevation of the tidal plane of a name, by its line here, and in which
// datum; none if it has no line here that says.
func (s *Site) lineOf(name string) (elevation float64, in string) {
	for _, l := range []level{s.meanHigh(), s.meanLow()} {
		if !strings.EqualFold(l.name, name) || l.bank == nil {
			continue
		}
		if line := l.layer.Items[l.bank.Lines.Item(s.nearestOn(l.bank.Lines).Foot)]; !math.IsNaN(line.Elevation) {
			return line.Elevation, l.layer.Source.Datum
		}
	}
	return 0, ""
}

// overPieces is how far an elevation lies over a tidal line by its nearest piece, and by
// the others that run beside the structure: they may lie higher or lower, or be known
// worse.
func (s *Site) overPieces(l level, elevation float64) rules.Value {
	nearest := s.nearestOn(l.bank.Lines)
	own := l.bank.Lines.Item(nearest.Foot)
	line := l.layer.Items[own]
	ofPiece := func(piece layers.Attributes) []rules.Accuracy {
		return s.ofHeights(l.layer.Title+" ("+piece.Label+")", piece.Levelled)
	}
	v := rules.Value{Number: elevation - line.Elevation, Layer: l.layer.Name, Feature: line.Label, Date: line.Date, Accuracy: ofPiece(line)}
	for _, other := range l.bank.Lines.ByItem() {
		piece := l.layer.Items[other.Item]
		switch {
		case other.Item == own || piece.Same(line.Stated) || !s.Footprint.Beside(l.bank.Lines, other.Lines):
			continue
		case math.IsNaN(piece.Elevation):
			v = Doubting(v, fmt.Sprintf("%s (%s), beside the structure too, has no elevation_ft that can be used: give it", l.layer.Title, piece.Label), 0)
			continue
		}
		v.Accuracy = append(v.Accuracy, ofPiece(piece)...)
		v.Date = older(v.Date, piece.Date)
		if piece.Elevation != line.Elevation {
			v.Also = append(v.Also, rules.Also{Number: elevation - piece.Elevation, Says: fmt.Sprintf("beside the structure %s lies at %s (%s) and at %s (%s): say which holds",
				l.layer.Title, job.FeetText(line.Elevation), line.Label, job.FeetText(piece.Elevation), piece.Label)})
		}
	}
	return v
}

// overStation is how far an elevation lies over a tidal plane by the nearest station, or
// why that is not known.
func (s *Site) overStation(l level, elevation float64, what string) (rules.Value, string) {
	station, distance := s.station()
	at, why := s.inDatum(station, elevation, levels.Datum(l.name), what)
	if why != "" {
		return rules.Value{}, why
	}
	v := rules.Value{Number: at, Accuracy: []rules.Accuracy{s.ofStation(station)}, Detail: fmt.Sprintf("%s by %s, %s", l.title, station, job.AwayText(distance))}
	s.byOthers(&v, station, func(other *layers.TideStation) (float64, string) {
		return s.inDatum(other, elevation, levels.Datum(l.name), what)
	}, l.title)
	return s.atStation(v, station), ""
}

// Vertical sets the measures of heights, depths and volumes.
func (s *Site) Vertical() {
	s.Values["crest_above_mhw"] = Unknown("the proposal states no crest_elev_ft")
	if !math.IsNaN(s.Proposal.Crest) {
		s.Values["crest_above_mhw"] = s.over(s.meanHigh(), s.Proposal.Crest, "crest")
	}
	s.Values["crest_above_wetland"] = s.overWetland()
	s.depths()
	s.exposure()
	s.Values["fill_tide_ranges"] = s.fillInTides()
	s.fill()
	s.Values["fill_per_length"] = s.fillPerLength()
	s.Values["bed_expected"] = s.bedExpected()
	s.doubtBed()
}

// overWetland is the crest over the ground of the adjacent wetland; both are
// stated by the proposal in its one datum.
func (s *Site) overWetland() rules.Value {
	switch {
	case math.IsNaN(s.Proposal.Crest):
		return Unknown("the proposal states no crest_elev_ft")
	case math.IsNaN(s.Proposal.wetland):
		return Unknown("the proposal states no wetland_elev_ft, the ground of the adjacent wetland")
	}
	return rules.Value{Number: s.Proposal.Crest - s.Proposal.wetland, Accuracy: s.ofHeights("the wetland's ground", s.Proposal.levelled)}
}

// raised is a height so much higher, whatever it can be.
func raised(v rules.Value, by float64) rules.Value {
	v.Number += by
	also := make([]rules.Also, len(v.Also))
	for i, other := range v.Also {
		other.Number += by
		also[i] = other
	}
	v.Also = also
	return v
}

// ofStation is the accuracy of an elevation of the proposal over a datum of a station.
func (s *Site) ofStation(station *layers.TideStation) rules.Accuracy {
	return s.ofHeights("the datums of "+station.String(), s.Layers.Tides.Accuracy)[0]
}

// ofHeights is the accuracy of an elevation of the proposal over another, of what of says.
func (s *Site) ofHeights(of string, other float64) []rules.Accuracy {
	return []rules.Accuracy{{Of: of, Line: other, Footprint: s.Proposal.levelled, OfHeights: true}}
}

// depths sets the depths of water along the structure, from the elevations of
// the bottom it states.
func (s *Site) depths() {
	mean, deepest := s.Proposal.Bed(), math.NaN()
	if len(s.Proposal.beds) == 0 {
		why := Unknown("the proposal states no bed_elev_ft")
		s.Values["mhw_mean_depth"], s.Values["mlw_greatest_depth"] = why, why
		return
	}
	for i, bed := range s.Proposal.beds {
		if i == 0 || bed < deepest {
			deepest = bed
		}
	}
	detail := "from one elevation of the bottom"
	if n := len(s.Proposal.beds); n > 1 {
		detail = fmt.Sprintf("from %d elevations of the bottom along it", n)
	}
	below := func(l level, bed float64) rules.Value {
		v := scaled(s.over(l, bed, "bed"), -1)
		if v.Unknown == "" {
			v.Detail = detail
		}
		return v
	}
	s.Values["mhw_mean_depth"] = below(s.meanHigh(), mean)
	s.Values["mlw_greatest_depth"] = below(s.meanLow(), deepest)
}

// fillInTides is how far the fill behind the structure stands over mean low
// water, in mean tide ranges.
func (s *Site) fillInTides() rules.Value {
	if math.IsNaN(s.Proposal.fill) {
		return Unknown("the proposal states no fill_elev_ft, the ground made behind it")
	}
	low, high := s.over(s.meanLow(), s.Proposal.fill, "fill"), s.over(s.meanHigh(), s.Proposal.fill, "fill")
	for _, v := range []rules.Value{low, high} {
		if v.Unknown != "" {
			return v
		}
	}
	tide := low.Number - high.Number
	if tide <= 0 {
		return Unknown("mean high water is not above mean low water here; check the elevations of both lines")
	}
	low = scaled(low, 1/tide)
	low.Whole = tide
	low.Doubts = append(low.Doubts[:len(low.Doubts):len(low.Doubts)], high.Doubts...)
	low.Accuracy = append(low.Accuracy, high.Accuracy...)
	return low
}

// scaled is a value so many times as large, whatever it can be.
func scaled(v rules.Value, factor float64) rules.Value {
	v.Number = 0 + v.Number*factor // and not minus nothing
	also := make([]rules.Also, len(v.Also))
	for i, other := range v.Also {
		other.Number *= factor
		also[i] = other
	}
	v.Also = also
	return v
}
