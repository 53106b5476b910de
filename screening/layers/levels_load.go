package layers

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"waterward/geo/geojson"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/levels"
)

// tides are the water levels of a run.
type tides struct {
	Stations []*TideStation
	Accuracy float64           // of their datums, vertical; NaN if not stated
	Record   *levels.Exposure  // nil if none
	Broken   string            // why nothing may be read off the record
	Span     string            // of the record
	Timeless bool              // the record's datum is a tidal one of no stated epoch
	notes    []string          // what was found when the record was read
	Mean     float64           // of the record, metres above its datum
	Reduced  *levels.Reduction // the record's own datums, nil if it has none
	Clumps   []levels.Clump    // of live oysters measured
}

// TideStation is a station whose exposure is worked out once, if it is asked for.
type TideStation struct {
	*levels.Station
	once     sync.Once
	exposure *levels.Exposure
	err      error
}

// Exposed is the exposure to air at the station over its epoch.
func (t *TideStation) Exposed() (*levels.Exposure, error) {
	t.once.Do(func() {
		tide, err := t.Tide(levels.MSL)
		if err != nil {
			t.err = err
			return
		}
		series, err := tide.Years(t.Epoch.First, t.Epoch.Last)
		if err != nil {
			t.err = err
			return
		}
		if t.err = t.fits(series); t.err == nil {
			t.exposure, t.err = series.Exposure()
		}
	})
	return t.exposure, t.err
}

// fits refuses a predicted tide whose range is not that of the station's own datums.
func (t *TideStation) fits(series *levels.Series) error {
	high, low := t.Datums[levels.MHW], t.Datums[levels.MLW]
	own, err := series.Reduce()
	if _, known := t.Datums[levels.MLW]; !known || high <= low || err != nil {
		return nil
	}
	if SameRange(own.MN, high-low) {
		return nil
	}
	return fmt.Errorf("the constituents of %s make a tide of %s between mean low and mean high water, and by its datums it is %s: check both", t, job.FeetText(own.MN), job.FeetText(high-low))
}

// rangeOff is by what share two ranges of one tide may differ: a quarter; common
// practice, no source. One year's is within a tenth of nineteen years' by the nodal
// cycle, and feet taken for metres are three times as much.
const rangeOff = 0.25

func SameRange(a, b float64) bool { return math.Abs(a-b) <= rangeOff*math.Max(a, b) }

// loadTides reads the stations, the record and the oysters of a job; nil if it gives
// none.
func loadTides(files job.Files, j *job.Job, log *inputs.Log) (*tides, error) {
	source := j.Levels
	if source == nil {
		return nil, nil
	}
	t := &tides{Accuracy: source.Accuracy.OrNaN()}
	for _, name := range source.Stations {
		text, err := readText(files, "levels.stations", name, log)
		if err != nil {
			return nil, err
		}
		s, err := levels.ReadStation(text)
		if err != nil {
			return nil, &job.Error{Message: fmt.Sprintf("levels: %s: %v", name, err)}
		}
		if err := t.sameEpoch(j, s.Epoch); err != nil {
			return nil, &job.Error{Message: fmt.Sprintf("levels: %s: %v", name, err)}
		}
		t.Stations = append(t.Stations, &TideStation{Station: s})
	}
	if r := source.Record; r != nil {
		text, err := readText(files, "levels.record", r.File, log)
		if err != nil {
			return nil, err
		}
		if err := t.read(j, r, text); err != nil {
			return nil, &job.Error{Message: fmt.Sprintf("levels: %s: %v", r.File, err)}
		}
	}
	if source.Oysters == "" {
		return t, nil
	}
	text, err := readText(files, "levels.oysters", source.Oysters, log)
	if err != nil {
		return nil, err
	}
	if t.Clumps, err = ReadOysters(source.Oysters, text); err != nil {
		return nil, &job.Error{Message: fmt.Sprintf("levels: %v", err)}
	}
	return t, nil
}

// sameEpoch refuses tidal datums of another epoch than those of the stations, or than
// the tidal lines.
func (t *tides) sameEpoch(j *job.Job, of levels.Epoch) error {
	if len(t.Stations) > 0 {
		if err := t.Stations[0].Epoch.Same(of); err != nil {
			return err
		}
	}
	for _, line := range []*job.LayerSource{j.Layers.HighWater, j.Layers.LowWater} {
		if line == nil || line.Epoch == "" {
			continue
		}
		epoch, _ := levels.ParseEpoch(line.Epoch) // Check has refused what is none
		if err := epoch.Same(of); err != nil {
			return err
		}
	}
	return nil
}

// read takes the record of a gauge.
func (t *tides) read(j *job.Job, r *job.RecordSource, text []byte) error {
	stated := levels.Stated{}
	var err error
	if stated.Unit, err = levels.ParseUnit(r.Unit); err != nil {
		return err
	}
	if stated.Datum, err = levels.ParseDatum(r.Datum); err != nil {
		return err
	}
	if stated.Zone, err = levels.ParseZone(r.Zone); err != nil {
		return err
	}
	if r.Epoch != "" {
		epoch, err := levels.ParseEpoch(r.Epoch)
		if err == nil {
			err = t.sameEpoch(j, epoch)
		}
		if err != nil {
			return err
		}
	}
	series, err := levels.ReadSeries(text, stated)
	if err != nil {
		return err
	}
	for _, note := range series.Notes {
		t.notes = append(t.notes, "levels: "+r.File+": "+note)
	}
	t.Span = series.Span()
	if r.Epoch != "" {
		t.Span += ", epoch " + r.Epoch
	}
	t.Mean = series.Mean()
	t.Reduced, _ = series.Reduce() // what it lacks for that it may not need here
	t.Timeless = r.Epoch == "" && stated.Datum.Tidal()
	if t.Record, err = series.Exposed(); err != nil {
		t.Broken = fmt.Sprintf("%s: %v", r.File, err)
	} else if short := t.Record.Undecided(); short != "" {
		t.Broken = fmt.Sprintf("%s: %s", r.File, short)
	}
	return nil
}

// readText reads a whole file of water levels.
func readText(files job.Files, role, name string, log *inputs.Log) ([]byte, error) {
	input, err := files.Open(name)
	if err != nil {
		return nil, &job.Error{Message: fmt.Sprintf("%s: cannot be opened: %v", role, err)}
	}
	defer input.Close()
	counted := log.Begin(role, name, input)
	text, err := levels.ReadText(counted)
	if err != nil {
		return nil, &geojson.FileError{File: name, Wrong: err.Error()}
	}
	return text, counted.Finish()
}

// Nearest is the station nearest to a place of those wanted, and how far off it is in
// metres, NaN if it does not say; nil if there is none.
func (t *tides) Nearest(place levels.Place, wanted func(*levels.Station) bool) (*TideStation, float64) {
	var all []*levels.Station
	var of []*TideStation
	for _, s := range t.Stations {
		if wanted(s.Station) {
			all, of = append(all, s.Station), append(of, s)
		}
	}
	found, distance := levels.Nearest(all, place)
	switch {
	case found != nil:
		return of[slices.Index(all, found)], distance
	case len(of) == 1: // it need not say where it is
		return of[0], math.NaN()
	}
	return nil, 0
}
