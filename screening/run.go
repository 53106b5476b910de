package screening

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"

	"waterward/geo/geojson"
	"waterward/rules"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/out"
	"waterward/screening/site"
	"waterward/screening/work"
)

// Run screens the proposals of a job. On an error nothing that was created
// counts.
func Run(ctx context.Context, j *job.Job, files job.Files, to out.Outputs, options Options) (*Report, error) {
	o, err := openBooks(j, files, (*job.Job).Check, options)
	if err != nil {
		return nil, err
	}
	again, err := inputs.Rereadable(ctx, files, j.Proposals.File)
	if err != nil {
		return nil, err
	}
	projects := findProjects(ctx, again, j.Proposals, j.SearchRadius.Metres)
	if err := o.openLayers(ctx, files, projects.places); err != nil {
		return nil, err
	}
	run := &run{
		setup: setup{
			opened: o, source: j.Proposals, projects: projects, opening: o.books.WidestOpening(),
			radius: j.SearchRadius.Metres, unverified: j.Unverified,
		},
		report: &Report{Idle: o.books.IdleText()},
		sums:   count{map[outcome]int{}, map[string]int{}},
	}
	run.report.Messages, run.report.Repairs = o.faults()
	run.report.Defects = len(run.report.Messages)
	run.report.NoLayer = run.unanswered()
	if run.out, err = run.newOutputs(to); err != nil {
		return nil, err
	}
	if err := run.proposals(ctx, again); err != nil {
		run.out.Close()
		return nil, err
	}
	o.log.Warn("proposals", j.Proposals.File, run.gaveWay.text())
	run.report.Warnings = slices.Concat(o.log.Warnings(), o.layers.Twice)
	run.report.Doubts = append(o.layers.Doubts(run.radius), site.Contradicted(o.layers, run.radius)...)
	run.report.Outcomes, run.report.Requests = run.sums.byAuthority(o.books.Live()), run.sums.often()
	run.note()
	return run.report, run.writeManifest(to)
}

// run is the state of one run.
type run struct {
	setup
	out    *outputs
	report *Report
	paths  map[*rules.Book]map[string]int // how many proposals came out on a path
	sums   count
	gaveWay
}

// note adds to the report what holds of the books that have decided, and what must be seen
// of every proposal on a path.
func (r *run) note() {
	for b, paths := range r.paths {
		if len(paths) > 0 {
			of := limitsOf(b)
			r.report.Limits += of.Used
			r.report.Unread += of.Unread
		}
	}
	for _, b := range r.books.Live() {
		record := r.bookRecord(b)
		for _, path := range slices.Sorted(maps.Keys(record.Notices)) {
			for _, text := range record.Notices[path] {
				if said := fmt.Sprintf("%s, %s: %s", b.Authority, path, text); !slices.Contains(r.report.Notices, said) {
					r.report.Notices = append(r.report.Notices, said)
				}
			}
		}
	}
}

// proposals reads, screens and writes the proposals, in their order.
func (r *run) proposals(ctx context.Context, files job.Files) error {
	r.paths = map[*rules.Book]map[string]int{}
	for _, b := range r.books.Live() {
		r.paths[b] = map[string]int{}
	}
	var readErr error
	features := func(yield func(*geojson.Feature) bool) { r.out.proposals.After, readErr = r.read(files, yield) }
	type screened struct {
		*result
		put func() error
	}
	err := work.InOrder(ctx, features, r.options.Workers, func(f *geojson.Feature) screened {
		found := r.screen(site.NewProposal(f, r.source))
		return screened{found, r.out.Prepare(found)}
	}, func(s screened) error {
		r.count(s.result)
		if r.options.Progress != nil {
			r.options.Progress(r.report.Proposals, r.setup.projects.all)
		}
		return s.put()
	})
	switch {
	case err != nil: // the reader may still be at work
		return err
	case readErr != nil:
		return readErr
	}
	return r.out.Finish()
}

// read yields every proposal, and returns the members that stand behind the features.
func (r *run) read(files job.Files, yield func(*geojson.Feature) bool) (after []geojson.Member, err error) {
	source := r.source
	input, err := files.Open(source.File)
	if err != nil {
		return nil, &job.Error{Message: fmt.Sprintf("proposals: cannot be opened: %v", err)}
	}
	defer input.Close()
	counted := r.log.Begin("proposals", source.File, input)
	reader, err := layers.NewReader(source.File, counted, source.CRS)
	if err != nil {
		return nil, err
	}
	first, missing := map[string]int{}, inputs.NewSought(source.Properties, "")
	for {
		f, err := reader.Next()
		if err == io.EOF {
			if err := inputs.Refuse(reader, source.File); err != nil {
				return nil, err
			}
			if counted.Record.Features == counted.Record.Unusable && !reader.Stray().IsEmpty() {
				return nil, &geojson.FileError{File: source.File, Wrong: layers.StrayText("proposals", reader.Stray(), r.layers.Extent())}
			}
			counted.Settle(reader)
			counted.Record.Warnings = append(counted.Record.Warnings, missing.Warnings("proposals", source.File)...)
			r.report.Datums = r.layers.Datums(reader.CRS().Datum)
			return reader.After(), counted.Finish()
		}
		if err != nil {
			return nil, err
		}
		counted.Feature(f)
		missing.See(f)
		source.Properties.Identify(f)
		if f.Number == 1 { // before the writer can see it
			r.out.proposals.Before = reader.Before()
		}
		if at, again := first[f.ID]; !again {
			first[f.ID] = f.Number
		} else if f.ID != "" && f.Err == nil {
			f.Err = &geojson.FeatureError{File: source.File, Number: f.Number, ID: f.ID, Wrong: fmt.Sprintf("feature %d has the same id", at), Remedy: "give every proposal its own id"}
		}
		if !yield(f) {
			return nil, nil
		}
	}
}

func (r *run) count(result *result) {
	r.report.Proposals++
	r.gaveWay.add(result)
	if result.p.Err != nil {
		r.report.Unusable++
		r.report.Messages = append(r.report.Messages, result.p.Err.Error())
		return
	}
	for _, d := range result.decisions {
		r.paths[d.Book][pathText(&d)]++
	}
	r.sums.add(result)
}

// Interrupted reports whether a run ended because it was told to.
func Interrupted(err error) bool { return errors.Is(err, context.Canceled) }
