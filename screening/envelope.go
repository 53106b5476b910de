package screening

import (
	"context"
	"fmt"
	"slices"

	"waterward/screening/envelope"
	"waterward/screening/front"
	"waterward/screening/job"
	"waterward/screening/out"
	"waterward/screening/site"
	"waterward/screening/work"
)

// EnvelopeReport is what an envelope run tells the person who started it.
type EnvelopeReport struct {
	Parcels  int
	Unusable int      // rows with a reason instead of a result
	Told     []string // what else is to be known of them
	Messages []string
	Repairs  []string
	Warnings []string
	Doubts   []string // what of the layers, set against one another, may mislead
	Idle     []string
}

// Envelope looks where along the shore of every parcel a structure could go.
func Envelope(ctx context.Context, j *job.Job, files job.Files, to out.Outputs, options Options) (*EnvelopeReport, error) {
	o, err := openBooks(j, files, (*job.Job).CheckEnvelope, options)
	if err != nil {
		return nil, err
	}
	chosen, err := newChoice(options.Chosen, j, files, o.log)
	if err != nil {
		return nil, err
	}
	if err := o.openLayers(ctx, files, nil); err != nil {
		return nil, err
	}
	search, err := envelope.New(o.layers, o.books.Current, j.Envelope.Settled(), j.SearchRadius.Metres, options.AllPaths)
	if err != nil {
		return nil, err
	}
	o.options.Progress.Doing("finding who fronts what")
	fronts, err := front.Find(ctx, o.layers, search.Radius, search.Settings.Tolerance.Metres, o.options.Workers)
	if err != nil {
		return nil, err
	}
	notes, err := front.NotesOf(ctx, o.layers, fronts, search.Radius, search.Settings.Tolerance.Metres, o.options.Workers)
	if err != nil {
		return nil, err
	}
	if fronts, err = chosen.fronts(fronts, o.layers.Layer("parcels")); err != nil {
		return nil, err
	}
	run := &envelopeRun{
		opened: o, chosen: chosen, search: search, notes: notes, sums: tally{},
		report: &EnvelopeReport{Idle: o.books.IdleText(), Warnings: o.log.Warnings()},
	}
	run.report.Messages, run.report.Repairs = o.faults()
	run.report.Doubts = append(o.layers.Doubts(search.Radius), site.Contradicted(o.layers, search.Radius)...)
	if err := run.parcels(ctx, fronts, to); err != nil {
		return nil, err
	}
	return run.report, run.writeManifest(to)
}

// envelopeRun is the state of one run.
type envelopeRun struct {
	*opened
	chosen *choice
	search *envelope.Search
	notes  *front.Notes
	out    *envelopeOutputs
	sums   tally
	report *EnvelopeReport
}

// parcels works out every holding and writes what came of it.
func (r *envelopeRun) parcels(ctx context.Context, fronts []front.Front, to out.Outputs) error {
	var err error
	if r.out, err = newEnvelopeOutputs(r.search, r.notes, r.sums, newCounty(r.search, r.notes).sink(r.aboutCounty), to); err != nil {
		return err
	}
	all := envelope.Holdings(fronts, len(r.layers.Layer("parcels").Items))
	type worked struct {
		*envelope.Result
		put func() error
	}
	done := 0
	r.options.Progress.Done(0, len(all))
	err = work.InOrder(ctx, slices.Values(all), r.options.Workers, func(h envelope.Holding) worked {
		found := r.search.Work(h)
		return worked{found, r.out.Prepare(found)}
	}, func(w worked) error {
		r.count(w.Result)
		done++
		r.options.Progress.Done(done, len(all))
		return w.put()
	})
	if err == nil {
		r.others(fronts)
		r.unowned(fronts)
		return r.out.Finish()
	}
	r.out.Close()
	return err
}

func (r *envelopeRun) count(of *envelope.Result) {
	if of.Of.Item < 0 {
		return
	}
	labels := r.search.Labels(of.Of)
	r.report.Parcels += len(labels)
	if wrong := of.Wrong(); wrong != nil {
		r.report.Unusable++
		r.report.Messages = append(r.report.Messages, fmt.Sprintf("%s: %s", out.Text(labels[0]).Table, wrong))
	}
}

// unowned says why it cannot be told who fronts some of the shore, once for each reason.
func (r *envelopeRun) unowned(fronts []front.Front) {
	metres, order := map[string]float64{}, []string{}
	for _, f := range fronts {
		if f.Why == "" {
			continue
		}
		if metres[f.Why] == 0 {
			order = append(order, f.Why)
		}
		metres[f.Why] += f.To - f.From
	}
	for _, why := range order {
		r.report.Messages = append(r.report.Messages, fmt.Sprintf("who fronts %s of shore cannot be told: %s", job.FeetText(metres[why]), why))
	}
}

// envelopeSettings are what of the job an envelope hangs on.
type envelopeSettings struct {
	Width     float64 `json:"width_ft"`
	Least     float64 `json:"least_length_ft"`
	Reach     float64 `json:"reach_ft"`
	Tolerance float64 `json:"tolerance_ft"`
	Radius    float64 `json:"search_radius_ft"`
	NoRepair  bool    `json:"no_repair"`
	AllPaths  bool    `json:"all_paths"`
	// Of which parcels it is, if not of all: the lists, and west, south, east and north of
	// the window in degrees.
	ParcelsFrom []string  `json:"parcels_from,omitempty"`
	Window      []float64 `json:"window,omitempty"`
}

// writeManifest says what an envelope was made of.
func (r *envelopeRun) writeManifest(to out.Outputs) error {
	s := r.search.Settings
	m := manifest{
		Command: "envelope",
		Settings: envelopeSettings{
			roundNoise(s.Width.Metres / job.Foot), roundNoise(s.Least.Metres / job.Foot), roundNoise(s.Reach.Metres / job.Foot),
			roundNoise(s.Tolerance.Metres / job.Foot), roundNoise(r.search.Radius / job.Foot), r.job.NoRepair, r.options.AllPaths,
			r.chosen.Lists, r.chosen.sides(),
		},
		Structure: s.Structure, Idle: r.report.Idle, Doubts: r.report.Doubts, Parcels: r.report.Parcels, Unusable: r.report.Unusable,
		Outputs: r.out.Records(),
	}
	for _, l := range r.search.LeftOut {
		m.LeftOut = append(m.LeftOut, fmt.Sprintf("%s, %s: %s", l.Book.Authority, l.Path.ID, l.Why))
	}
	for _, b := range r.books.Current {
		record := recordOf(b)
		record.Parcels = r.sums.byPath(b.Authority)
		m.Books = append(m.Books, record)
	}
	return r.opened.writeManifest(to, m)
}
