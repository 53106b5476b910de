package screening

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"runtime"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
)

// EnvelopeSource says what structure an envelope is for, and how far to look.
type EnvelopeSource struct {
	Width     Distance          `yaml:"width"`        // of the structure
	Least     Distance          `yaml:"least_length"` // worth building
	Reach     Distance          `yaml:"reach"`        // how far out from mean high water is looked
	Tolerance Distance          `yaml:"tolerance"`    // how far from the shore a parcel may end and front it
	Structure map[string]string `yaml:"structure"`    // what it states, as a proposal would
}

// The modest structure that is looked for unless the job says otherwise; common
// practice, no source.
var modest = EnvelopeSource{
	Width: Distance{6 * foot, true}, Least: Distance{20 * foot, true}, Reach: Distance{150 * foot, true},
	Tolerance: Distance{parcelTolerance, true},
	Structure: map[string]string{"kind": "sill", "material": "oyster shell", "crest_elev_ft": "-0.5", "datum": "MHW", "fill": "no"},
}

// settled fills in what is not stated.
func (s EnvelopeSource) settled() EnvelopeSource {
	for _, d := range []struct{ of, by *Distance }{
		{&s.Width, &modest.Width}, {&s.Least, &modest.Least}, {&s.Reach, &modest.Reach}, {&s.Tolerance, &modest.Tolerance},
	} {
		if !d.of.Stated {
			*d.of = *d.by
		}
	}
	if s.Structure == nil {
		s.Structure = modest.Structure
	}
	return s
}

// check says what of the settings cannot be.
func (s EnvelopeSource) check() error {
	for _, d := range []struct {
		name string
		of   Distance
	}{{"width", s.Width}, {"least_length", s.Least}, {"reach", s.Reach}} {
		if d.of.Metres <= 0 {
			return &JobError{fmt.Sprintf("envelope: %s is a length of more than 0", d.name)}
		}
	}
	if s.Reach.Metres > mostReach {
		return &JobError{fmt.Sprintf("envelope: reach is more than %s, beyond which nothing of a shore is known", feetText(mostReach))}
	}
	if s.Tolerance.Metres > mostTolerance {
		return &JobError{fmt.Sprintf("envelope: tolerance is more than %s; a parcel that ends so far from the shore does not front it", feetText(mostTolerance))}
	}
	for _, name := range slices.Sorted(maps.Keys(s.Structure)) {
		switch {
		case slices.Contains([]string{"id", "width_ft", "diameter_ft", "accuracy_ft", "project", "site", "alternative", "started"}, name):
			return &JobError{fmt.Sprintf("envelope: structure states no %s: a candidate stands alone, and is drawn by the tool", name)}
		case !slices.Contains(proposalProperties(), name):
			return &JobError{fmt.Sprintf("envelope: nothing reads a property %s of a structure; properties are %s", name, strings.Join(proposalProperties(), ", "))}
		}
	}
	return nil
}

// mostTolerance is how far from the shore, in metres (300 ft), a parcel may end and be
// said to front it: room for the worst of parcel maps, and none for a row of lots between.
const mostTolerance = 300 * foot

// mostReach is how far out, in metres (1,000 ft), an envelope may be looked for.
const mostReach = 1000 * foot

// near is the window in degrees in which the layers round a front are looked at.
func (e *envelope) near(h *shore) orb.Bound {
	return crs.Window(orb.LineString(h.front.points).Bound(), h.reach*1.01+e.spotRadius)
}

// frontEnvelope is what an envelope says of one front.
type frontEnvelope struct {
	shore *shore
	zone  *zone
	fits  []fit // of each path
	err   error
}

// at works out the envelope of a front.
func (e *envelope) at(f *front) *frontEnvelope {
	out := &frontEnvelope{}
	fail := func(err error) *frontEnvelope { out.err = err; return out }
	if f.why != "" {
		return fail(errors.New(f.why))
	}
	var err error
	if out.shore, err = e.newShore(f, e.structure); err != nil {
		return fail(err)
	}
	if out.shore.bank == nil {
		return fail(errors.New(out.shore.noHigh))
	}
	if out.zone, err = e.divide(out.shore); err != nil {
		return fail(fmt.Errorf("the water before it cannot be parted: %w", err))
	}
	for i, p := range out.zone.paths {
		if p.like < i {
			out.fits = append(out.fits, out.fits[p.like])
			continue
		}
		out.fits = append(out.fits, out.shore.fits(p.open, e.settings.Width.Metres))
	}
	return out
}

// EnvelopeReport is what an envelope run tells the person who started it.
type EnvelopeReport struct {
	Parcels  int
	Unusable int // rows with a reason instead of a result
	Messages []string
	Repairs  []string
	Warnings []string
	Doubts   []string // what of the layers, set against one another, may mislead
	Idle     []string
}

// Envelope looks where along the shore of every parcel a structure could go.
func Envelope(ctx context.Context, job *Job, files Files, outputs Outputs, options Options) (*EnvelopeReport, error) {
	if err := job.usePresets(files); err != nil {
		return nil, err
	}
	if err := job.checkEnvelope(); err != nil {
		return nil, err
	}
	log := &inputLog{}
	shelf, err := loadBooks(files, job, log)
	if err != nil {
		return nil, err
	}
	from := &loader{files: files, log: log, day: job.DecisionDate.Time, asDrawn: job.NoRepair}
	layers, err := await(ctx, func() (*mapped, error) { return from.layers(job) })
	if err != nil {
		return nil, err
	}
	layers.setback = shelf.setback()
	e, err := newEnvelope(layers, shelf.current, job.Envelope.settled(), job.SearchRadius.Metres)
	if err != nil {
		return nil, err
	}
	workers := options.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	workers = min(workers, maxWorkers)
	fronts, err := layers.fronts(ctx, e.radius, e.settings.Tolerance.Metres, workers)
	if err != nil {
		return nil, err
	}
	options.Workers = workers
	return e.run(ctx, fronts, job, shelf, log, outputs, options)
}
