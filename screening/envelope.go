package screening

import (
	"context"
	"runtime"

	"waterward/screening/envelope"
	"waterward/screening/front"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/out"
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
func Envelope(ctx context.Context, j *job.Job, files job.Files, outputs out.Outputs, options Options) (*EnvelopeReport, error) {
	if err := j.UsePresets(files); err != nil {
		return nil, err
	}
	if err := j.CheckEnvelope(); err != nil {
		return nil, err
	}
	log := &inputs.Log{}
	shelf, err := inputs.LoadBooks(files, j, log)
	if err != nil {
		return nil, err
	}
	from := &layers.Loader{Files: files, Log: log, Day: j.DecisionDate.Time, AsDrawn: j.NoRepair}
	mapped, err := inputs.Await(ctx, func() (*layers.Set, error) { return from.Load(j) })
	if err != nil {
		return nil, err
	}
	mapped.Setback = shelf.Setback()
	e, err := envelope.New(mapped, shelf.Current, j.Envelope.Settled(), j.SearchRadius.Metres)
	if err != nil {
		return nil, err
	}
	workers := options.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	workers = min(workers, maxWorkers)
	fronts, err := front.Find(ctx, mapped, e.Radius, e.Settings.Tolerance.Metres, workers)
	if err != nil {
		return nil, err
	}
	options.Workers = workers
	return runEnvelope(ctx, e, fronts, j, shelf, log, outputs, options)
}
