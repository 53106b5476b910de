package screening

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"sync"

	"waterward/geo/geojson"
	"waterward/screening/levels"
)

// tides are the water levels of a run.
type tides struct {
	stations []*tideStation
	accuracy float64           // of their datums, vertical; NaN if not stated
	record   *levels.Exposure  // nil if none
	broken   string            // why nothing may be read off the record
	span     string            // of the record
	timeless bool              // the record's datum is a tidal one of no stated epoch
	notes    []string          // what was found when the record was read
	mean     float64           // of the record, metres above its datum
	reduced  *levels.Reduction // the record's own datums, nil if it has none
	clumps   []levels.Clump    // of live oysters measured
}

// tideStation is a station whose exposure is worked out once, if it is asked for.
type tideStation struct {
	*levels.Station
	once     sync.Once
	exposure *levels.Exposure
	err      error
}

// exposed is the exposure to air at the station over its epoch.
func (t *tideStation) exposed() (*levels.Exposure, error) {
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
func (t *tideStation) fits(series *levels.Series) error {
	high, low := t.Datums[levels.MHW], t.Datums[levels.MLW]
	own, err := series.Reduce()
	if _, known := t.Datums[levels.MLW]; !known || high <= low || err != nil {
		return nil
	}
	if sameRange(own.MN, high-low) {
		return nil
	}
	return fmt.Errorf("the constituents of %s make a tide of %s between mean low and mean high water, and by its datums it is %s: check both", t, feetText(own.MN), feetText(high-low))
}

// rangeOff is by what share two ranges of one tide may differ: a quarter; common
// practice, no source. One year's is within a tenth of nineteen years' by the nodal
// cycle, and feet taken for metres are three times as much.
const rangeOff = 0.25

func sameRange(a, b float64) bool { return math.Abs(a-b) <= rangeOff*math.Max(a, b) }

// loadTides reads the stations, the record and the oysters of a job; nil if it gives
// none.
func loadTides(files Files, job *Job, log *inputLog) (*tides, error) {
	source := job.Levels
	if source == nil {
		return nil, nil
	}
	t := &tides{accuracy: source.Accuracy.OrNaN()}
	for _, name := range source.Stations {
		text, err := readAll(files, "levels.stations", name, log)
		if err != nil {
			return nil, err
		}
		read := levels.ReadStationCSV
		if strings.HasPrefix(strings.TrimSpace(string(text)), "{") {
			read = levels.ReadStationJSON
		}
		s, err := read(bytes.NewReader(text))
		if err != nil {
			return nil, &JobError{fmt.Sprintf("levels: %s: %v", name, err)}
		}
		if err := t.sameEpoch(job, s.Epoch); err != nil {
			return nil, &JobError{fmt.Sprintf("levels: %s: %v", name, err)}
		}
		t.stations = append(t.stations, &tideStation{Station: s})
	}
	if r := source.Record; r != nil {
		text, err := readAll(files, "levels.record", r.File, log)
		if err != nil {
			return nil, err
		}
		if err := t.read(job, r, text); err != nil {
			return nil, &JobError{fmt.Sprintf("levels: %s: %v", r.File, err)}
		}
	}
	if source.Oysters == "" {
		return t, nil
	}
	text, err := readAll(files, "levels.oysters", source.Oysters, log)
	if err != nil {
		return nil, err
	}
	if t.clumps, err = ReadOysters(source.Oysters, text); err != nil {
		return nil, &JobError{fmt.Sprintf("levels: %v", err)}
	}
	return t, nil
}

// sameEpoch refuses tidal datums of another epoch than those of the stations, or than
// the tidal lines.
func (t *tides) sameEpoch(job *Job, of levels.Epoch) error {
	if len(t.stations) > 0 {
		if err := t.stations[0].Epoch.Same(of); err != nil {
			return err
		}
	}
	for _, line := range []*LayerSource{job.Layers.HighWater, job.Layers.LowWater} {
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
func (t *tides) read(job *Job, r *RecordSource, text []byte) error {
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
			err = t.sameEpoch(job, epoch)
		}
		if err != nil {
			return err
		}
	}
	series, err := levels.ReadSeries(bytes.NewReader(text), stated)
	if err != nil {
		return err
	}
	for _, note := range series.Notes {
		t.notes = append(t.notes, "levels: "+r.File+": "+note)
	}
	t.span = series.Span()
	if r.Epoch != "" {
		t.span += ", epoch " + r.Epoch
	}
	t.mean = series.Mean()
	t.reduced, _ = series.Reduce() // what it lacks for that it may not need here
	t.timeless = r.Epoch == "" && stated.Datum.Tidal()
	if t.record, err = series.Exposed(); err != nil {
		t.broken = fmt.Sprintf("%s: %v", r.File, err)
	} else if short := t.record.Undecided(); short != "" {
		t.broken = fmt.Sprintf("%s: %s", r.File, short)
	}
	return nil
}

// mostLevels is how large a file of water levels may be, in bytes: nineteen years every
// six minutes are 70 MB.
const mostLevels = 200 << 20

func readAll(files Files, role, name string, log *inputLog) ([]byte, error) {
	input, err := files.Open(name)
	if err != nil {
		return nil, &JobError{fmt.Sprintf("%s: cannot be opened: %v", role, err)}
	}
	defer input.Close()
	counted := log.begin(role, name, input)
	text, err := io.ReadAll(io.LimitReader(counted, mostLevels+1))
	if err == nil && len(text) > mostLevels {
		return nil, &geojson.FileError{File: name, Wrong: "it is larger than a file of water levels can be"}
	}
	if err != nil {
		return nil, &geojson.FileError{File: name, Wrong: "cannot be read: " + err.Error()}
	}
	return text, counted.finish()
}

// nearest is the station nearest to a place of those wanted, and how far off it is in
// metres, NaN if it does not say; nil if there is none.
func (t *tides) nearest(place levels.Place, wanted func(*levels.Station) bool) (*tideStation, float64) {
	var all []*levels.Station
	var of []*tideStation
	for _, s := range t.stations {
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
