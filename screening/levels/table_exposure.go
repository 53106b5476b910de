package levels

import (
	"fmt"
	"math"
	"time"
)

// ExposureTable is how much of the time elevations are exposed to air at a site.
type ExposureTable struct {
	Of       string        `json:"of"`
	Way      Way           `json:"way"`
	Points   figure        `json:"may_be_off_by_points,omitempty"`
	Class    Class         `json:"class_of_tide,omitempty"` // if it was found from that
	Years    string        `json:"years,omitempty"`         // of a prediction
	Record   *RecordFact   `json:"record,omitempty"`
	Datum    Datum         `json:"datum"`
	Epoch    string        `json:"epoch,omitempty"`
	Source   string        `json:"source,omitempty"`
	DatumsOf string        `json:"datums_of,omitempty"` // which site's
	Targets  []ExposureRow `json:"targets"`
	Crest    *CrestRow     `json:"crest,omitempty"`
	Living   *LivingRow    `json:"oysters_live,omitempty"`
	Rows     []ExposureRow `json:"elevations"`
	Mind     []string      `json:"mind"`
	exposure *Exposure
	datums   map[Datum]float64 // m above Datum
}

// ExposureRow is an elevation and the percent of time for which it is exposed.
type ExposureRow struct {
	Height
	Percent figure `json:"exposed_pct"`
	Band    Band   `json:"band,omitempty"`
}

// CrestRow is a stated crest among them.
type CrestRow struct {
	Stated string `json:"stated"`
	ExposureRow
	in Datum // in which it was stated
}

// Asked is what an exposure table is to show.
type Asked struct {
	Above  Datum // elevations are above it; blank: the usual one
	Every  Every
	Crest  *Mark
	Clumps []Clump // live oysters that were measured
	Site   *Place  // where the site is; nil: at the station
}

// Every is the step between the elevations of a table; chosen if it has no size.
type Every struct {
	Size float64
	Unit Unit
}

const (
	// joinedFrom is the step from which on the levels of a record are joined by
	// lines: at six minutes counting is as good, at an hour each level would stand
	// for more of the tide than it is. Common practice, no source.
	joinedFrom = 30 * time.Minute
	// year is the least record that holds each season.
	year = 365 * 24 * time.Hour
	// fewRows is how many rows a table has at most whose step nobody chose.
	fewRows = 40
	// mostRows is how many it has at most in any case.
	mostRows = 10_000
)

// ExposureTable is the exposure of a record. The station, if there is one, ties
// the record's datum to others; its datums are then those of the site.
func (s *Series) ExposureTable(of string, station *Station, asked Asked) (*ExposureTable, error) {
	t := &ExposureTable{Of: of, Record: s.facts()}
	if station != nil {
		t.Epoch = station.Epoch.String()
		t.Mind = append(t.Mind, fmt.Sprintf("%s of the record is taken to be that of %s, epoch %s", s.Datum, station, station.Epoch))
	}
	if asked.Above != "" && asked.Above != s.Datum {
		var err error
		if s, err = s.above(asked.Above, station); err != nil {
			return nil, err
		}
	}
	e, err := s.Exposed()
	if err != nil {
		return nil, err
	}
	switch short := e.Undecided(); {
	case short != "":
		t.Mind = append(t.Mind, short)
	case e.length() < year:
		t.Mind = append(t.Mind, shortRecord)
	}
	if e.Coverage < 1 {
		t.Mind = append(t.Mind, fmt.Sprintf("%.1f %% of the levels are missing; with them a share of the time may be up to as many points another", 100*(1-e.Coverage)))
	}
	if station == nil {
		r, err := s.Reduce()
		if err != nil {
			t.Mind = append(t.Mind, "no datums of the site are shown: "+err.Error())
		} else {
			t.datums = map[Datum]float64{MHHW: r.MHHW, MHW: r.MHW, MSL: r.MSL, MLW: r.MLW, MLLW: r.MLLW}
			t.DatumsOf = "the record itself, not of an epoch"
		}
	}
	return t.fill(e, station, asked)
}

// above is the record above another datum.
func (s *Series) above(d Datum, station *Station) (*Series, error) {
	if station == nil {
		return nil, fmt.Errorf("the record is above %s, and nothing ties that to %s; give the station too", s.Datum, d)
	}
	shift, err := station.Convert(0, s.Datum, d)
	if err != nil {
		return nil, err
	}
	moved := *s
	moved.Datum, moved.Levels = d, make([]float64, len(s.Levels))
	for i, v := range s.Levels {
		moved.Levels[i] = v + shift
	}
	return &moved, nil
}

// PredictedTable is the exposure of whole years predicted at the station.
func (s *Station) PredictedTable(years Epoch, asked Asked) (*ExposureTable, error) {
	tide, err := s.Tide(s.datumOf(asked))
	if err != nil {
		return nil, err
	}
	series, err := tide.Years(years.First, years.Last)
	if err != nil {
		return nil, err
	}
	e, err := series.Exposure()
	if err != nil {
		return nil, err
	}
	t := &ExposureTable{Of: s.String(), Epoch: s.Epoch.String(), Source: s.Source, Years: years.String(), Mind: []string{OnlyTide}}
	return t.fill(e, s, asked)
}

// RoughTable is the exposure by the station's datums and its class of tide.
func (s *Station) RoughTable(class Class, asked Asked) (*ExposureTable, error) {
	e, err := s.roughExposure(class, s.datumOf(asked))
	if err != nil {
		return nil, err
	}
	t := &ExposureTable{Of: s.String(), Class: class, Epoch: s.Epoch.String(), Source: s.Source, Points: figure(e.Points), Mind: []string{roughly}}
	return t.fill(e, s, asked)
}

func (s *Station) datumOf(asked Asked) Datum {
	if asked.Above != "" {
		return asked.Above
	}
	return s.countedFrom()[0]
}

func (t *ExposureTable) fill(e *Exposure, station *Station, asked Asked) (*ExposureTable, error) {
	t.exposure, t.Way, t.Datum = e, e.Way, e.Datum
	t.Mind = append(t.Mind, growth, pilings, lagoons, NeverLegal)
	for k, target := range e.Targets() {
		t.Targets = append(t.Targets, ExposureRow{heightOf(target), figure(BandLimits[k]), ""})
	}
	if station != nil {
		t.DatumsOf, t.datums = fmt.Sprintf("%s, epoch %s", station, station.Epoch), map[Datum]float64{}
		if t.Record != nil && station.Source != "" {
			t.DatumsOf += " (" + station.Source + ")"
		}
		for _, d := range datums {
			if v, err := station.Convert(0, d, e.Datum); err == nil && d != STND {
				t.datums[d] = v
			}
		}
	}
	if asked.Crest != nil {
		t.Crest = &CrestRow{asked.Crest.String(), t.crest(*asked.Crest, station), asked.Crest.Datum}
	}
	if err := t.addLiving(station, asked); err != nil {
		return nil, err
	}
	return t, t.addRows(asked.Every)
}

// crest is the row of a stated elevation.
func (t *ExposureTable) crest(at Mark, station *Station) ExposureRow {
	h := height(at.Metres, at.Datum)
	switch {
	case at.Datum == t.Datum:
	case station != nil:
		h = station.heightAbove(at.Metres, at.Datum, t.Datum)
	default:
		h = Height{t.Datum, unknown, unknown, fmt.Sprintf("nothing ties %s to %s, the datum of the record; give the station too", at.Datum, t.Datum)}
	}
	if h.Unknown != "" {
		return ExposureRow{h, unknown, ""}
	}
	return t.row(h)
}

func (t *ExposureTable) row(h Height) ExposureRow {
	percent, err := t.exposure.Percent(float64(h.Metres))
	if err != nil {
		h.Unknown = err.Error()
		return ExposureRow{h, unknown, ""}
	}
	return ExposureRow{h, figure(percent), BandOf(percent)}
}

// addRows adds the elevations at whole steps, from the last that is never
// exposed to the first that always is.
func (t *ExposureTable) addRows(every Every) error {
	low, high := t.exposure.span()
	if every.Size == 0 {
		every = Every{math.Inf(1), Feet}
		for _, size := range []float64{2, 1, 0.5, 0.2, 0.1, 0.05} {
			if Feet.from(high-low)/size < fewRows {
				every.Size = size
			}
		}
	}
	first, last := math.Floor(every.Unit.from(low)/every.Size), math.Ceil(every.Unit.from(high)/every.Size)
	if last-first > mostRows {
		return fmt.Errorf("a table every %g %s would have %.0f rows, and %d is the most; give a longer step", every.Size, every.Unit, last-first+1, mostRows)
	}
	for k := first; k <= last; k++ {
		at := math.Round(k*every.Size*1e6) / 1e6 // 3 x 0.1 is 0.3 again
		if row := t.row(height(every.Unit.Metres(at), t.Datum)); row.Unknown == "" {
			t.Rows = append(t.Rows, row)
		}
	}
	return nil
}

// span is the least and the greatest elevation of which more is known than that
// it is never, or always, exposed.
func (e *Exposure) span() (low, high float64) {
	switch c := e.curve.(type) {
	case counted:
		return c[0], c[len(c)-1]
	case classed:
		return c.points[0].elevation, c.points[len(c.points)-1].elevation
	case crossed:
		return c[0].level, c[len(c)-1].level
	}
	return low, high
}
