package screening

import (
	"fmt"
	"math"
	"strings"

	"waterward/geo"
	"waterward/rules"
	"waterward/screening/levels"
)

// level is a tidal plane to which an elevation can be tied.
type level struct {
	name  string // as a datum is written
	title string
	layer *layer
	bank  *geo.Bank // nil if not known here
}

func (s *site) meanHigh() level {
	return level{"MHW", "mean high water", s.layers.layer("high_water"), s.bank}
}

func (s *site) meanLow() level {
	return level{"MLW", "mean low water", s.layers.layer("low_water"), s.low}
}

// over is how far an elevation of the proposal lies over a tidal plane, in one
// vertical datum or unknown; what says whose elevation it is.
func (s *site) over(l level, elevation float64, what string) rules.Value {
	datum, orAbove := s.p.words["datum"], ", or above "+l.name
	if what == "fill" { // which is set against two planes
		orAbove = ""
	}
	switch {
	case datum == "":
		return unknown("the %s elevation has no datum; state it", what)
	case strings.EqualFold(datum, l.name):
		return rules.Value{Number: elevation, Accuracy: s.ofHeights(l.title, 0)}
	case l.bank == nil:
		if v, why := s.overStation(l, elevation, what); why == "" {
			return v
		}
		return unknown("no %s line is known here, so neither is its elevation", l.title)
	}
	line := l.layer.items[l.bank.Lines.Item(s.nearestOn(l.bank.Lines).Foot)]
	of := l.layer.source.Datum
	switch {
	case line.refused != "":
		return unknown("the elevation of the %s line %s cannot be used: %s", l.title, line.label, line.refused)
	case math.IsNaN(line.elevation):
		if v, why := s.overStation(l, elevation, what); why == "" {
			return v
		} else if s.layers.tides != nil {
			return unknown("the %s line %s has no elevation_ft, and %s", l.title, line.label, why)
		}
		return unknown("the %s line %s has no elevation_ft, so a %s in %s cannot be set against it; give a tie%s", l.title, line.label, what, datum, orAbove)
	case of == "":
		return unknown("the elevation of the %s line has no datum; state it in the job", l.title)
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
	if err != nil || s.layers.tides == nil {
		return unknown("the %s is in %s and the elevation of %s in %s; give the %s in %s%s", what, datum, l.title, of, what, of, orAbove)
	}
	station, distance := s.station()
	at, why := s.inDatum(station, elevation, to, what)
	if why != "" {
		return unknown("%s", why)
	}
	v.Accuracy = append(v.Accuracy, s.ofStation(station))
	v = raised(v, at-elevation)
	v.Detail = fmt.Sprintf("from %s to %s by %s, %s", datum, of, station, awayText(distance))
	s.byOthers(&v, station, func(other *tideStation) (float64, string) {
		at, why := s.inDatum(other, elevation, to, what)
		return at - line.elevation, why
	}, l.title)
	return s.atStation(v, station)
}

// lineOf is the elevation of the tidal plane of a name, by its line here, and in which
// datum; none if it has no line here that says.
func (s *site) lineOf(name string) (elevation float64, in string) {
	for _, l := range []level{s.meanHigh(), s.meanLow()} {
		if !strings.EqualFold(l.name, name) || l.bank == nil {
			continue
		}
		if line := l.layer.items[l.bank.Lines.Item(s.nearestOn(l.bank.Lines).Foot)]; !math.IsNaN(line.elevation) {
			return line.elevation, l.layer.source.Datum
		}
	}
	return 0, ""
}

// overPieces is how far an elevation lies over a tidal line by its nearest piece, and by
// the others that run beside the structure: they may lie higher or lower, or be known
// worse.
func (s *site) overPieces(l level, elevation float64) rules.Value {
	nearest := s.nearestOn(l.bank.Lines)
	own := l.bank.Lines.Item(nearest.Foot)
	line := l.layer.items[own]
	ofPiece := func(piece attributes) []rules.Accuracy {
		return s.ofHeights(l.layer.title+" ("+piece.label+")", piece.levelled)
	}
	v := rules.Value{Number: elevation - line.elevation, Layer: l.layer.name, Feature: line.label, Date: line.date, Accuracy: ofPiece(line)}
	for _, other := range l.bank.Lines.ByItem() {
		piece := l.layer.items[other.Item]
		switch {
		case other.Item == own || piece.same(line.stated) || !s.fp.Beside(l.bank.Lines, other.Lines):
			continue
		case math.IsNaN(piece.elevation):
			v = doubting(v, fmt.Sprintf("%s (%s), beside the structure too, has no elevation_ft that can be used: give it", l.layer.title, piece.label), 0)
			continue
		}
		v.Accuracy = append(v.Accuracy, ofPiece(piece)...)
		v.Date = older(v.Date, piece.date)
		if piece.elevation != line.elevation {
			v.Also = append(v.Also, rules.Also{Number: elevation - piece.elevation, Says: fmt.Sprintf("beside the structure %s lies at %s (%s) and at %s (%s): say which holds",
				l.layer.title, feetText(line.elevation), line.label, feetText(piece.elevation), piece.label)})
		}
	}
	return v
}

// overStation is how far an elevation lies over a tidal plane by the nearest station, or
// why that is not known.
func (s *site) overStation(l level, elevation float64, what string) (rules.Value, string) {
	station, distance := s.station()
	at, why := s.inDatum(station, elevation, levels.Datum(l.name), what)
	if why != "" {
		return rules.Value{}, why
	}
	v := rules.Value{Number: at, Accuracy: []rules.Accuracy{s.ofStation(station)}, Detail: fmt.Sprintf("%s by %s, %s", l.title, station, awayText(distance))}
	s.byOthers(&v, station, func(other *tideStation) (float64, string) {
		return s.inDatum(other, elevation, levels.Datum(l.name), what)
	}, l.title)
	return s.atStation(v, station), ""
}

// vertical sets the measures of heights, depths and volumes.
func (s *site) vertical() {
	s.values["crest_above_mhw"] = unknown("the proposal states no crest_elev_ft")
	if !math.IsNaN(s.p.crest) {
		s.values["crest_above_mhw"] = s.over(s.meanHigh(), s.p.crest, "crest")
	}
	s.values["crest_above_wetland"] = s.overWetland()
	s.depths()
	s.exposure()
	s.values["fill_tide_ranges"] = s.fillInTides()
	s.fill()
	s.values["fill_per_length"] = s.fillPerLength()
	s.values["bed_expected"] = s.bedExpected()
	s.doubtBed()
}

// overWetland is the crest over the ground of the adjacent wetland; both are
// stated by the proposal in its one datum.
func (s *site) overWetland() rules.Value {
	switch {
	case math.IsNaN(s.p.crest):
		return unknown("the proposal states no crest_elev_ft")
	case math.IsNaN(s.p.wetland):
		return unknown("the proposal states no wetland_elev_ft, the ground of the adjacent wetland")
	}
	return rules.Value{Number: s.p.crest - s.p.wetland, Accuracy: s.ofHeights("the wetland's ground", s.p.levelled)}
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
func (s *site) ofStation(station *tideStation) rules.Accuracy {
	return s.ofHeights("the datums of "+station.String(), s.layers.tides.accuracy)[0]
}

// ofHeights is the accuracy of an elevation of the proposal over another, of what of says.
func (s *site) ofHeights(of string, other float64) []rules.Accuracy {
	return []rules.Accuracy{{Of: of, Line: other, Footprint: s.p.levelled, OfHeights: true}}
}

// depths sets the depths of water along the structure, from the elevations of
// the bottom it states.
func (s *site) depths() {
	mean, deepest := s.p.bed(), math.NaN()
	if len(s.p.beds) == 0 {
		why := unknown("the proposal states no bed_elev_ft")
		s.values["mhw_mean_depth"], s.values["mlw_greatest_depth"] = why, why
		return
	}
	for i, bed := range s.p.beds {
		if i == 0 || bed < deepest {
			deepest = bed
		}
	}
	detail := "from one elevation of the bottom"
	if n := len(s.p.beds); n > 1 {
		detail = fmt.Sprintf("from %d elevations of the bottom along it", n)
	}
	below := func(l level, bed float64) rules.Value {
		v := scaled(s.over(l, bed, "bed"), -1)
		if v.Unknown == "" {
			v.Detail = detail
		}
		return v
	}
	s.values["mhw_mean_depth"] = below(s.meanHigh(), mean)
	s.values["mlw_greatest_depth"] = below(s.meanLow(), deepest)
}

// fillInTides is how far the fill behind the structure stands over mean low
// water, in mean tide ranges.
func (s *site) fillInTides() rules.Value {
	if math.IsNaN(s.p.fill) {
		return unknown("the proposal states no fill_elev_ft, the ground made behind it")
	}
	low, high := s.over(s.meanLow(), s.p.fill, "fill"), s.over(s.meanHigh(), s.p.fill, "fill")
	for _, v := range []rules.Value{low, high} {
		if v.Unknown != "" {
			return v
		}
	}
	tide := low.Number - high.Number
	if tide <= 0 {
		return unknown("mean high water is not above mean low water here; check the elevations of both lines")
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
