package screening

import (
	"context"
	"runtime"
)

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
	fronts, err := findFronts(ctx, layers, e.radius, e.settings.Tolerance.Metres, workers)
	if err != nil {
		return nil, err
	}
	options.Workers = workers
	return runEnvelope(ctx, e, fronts, job, shelf, log, outputs, options)
}
