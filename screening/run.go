package screening

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"runtime"
	"slices"

	"waterward/geo/geojson"
	"waterward/rules"
)

// Options are what a run can be told besides its job. The zero value works.
type Options struct {
	Workers int    // how many proposals are screened at once; 0: one for each processor
	Version string // of the tool, for run.json
	// Progress, if set, is told how much of long work is done.
	Progress func(done, of int)
}

// Report is what a run tells the person who started it.
type Report struct {
	Proposals int
	Unusable  int      // proposals that are rows with a reason instead of a result
	Defects   int      // features of layers that could not be used
	Repairs   []string // areas of layers that were not valid and have been rebuilt
	NoLayer   []string // layers that notices of the books ask about and the job does not give
	Datums    []string // layers on another horizontal datum than the proposals
	Warnings  []string // what of the inputs is no fault and may still mislead
	Doubts    []string // what of the layers, set against one another, may mislead
	Limits    int      // of all books that decided
	Unread    int      // limits that rest on text nobody has read
	Idle      []string // books asked for that never decide, and why
	Notices   []string // what must be seen of every proposal on a path, said once
	Messages  []string // each fault found in the inputs, in order
}

// Run screens the proposals of a job. On an error nothing that was created
// counts.
func Run(ctx context.Context, job *Job, files Files, outputs Outputs, options Options) (*Report, error) {
	if err := job.usePresets(files); err != nil {
		return nil, err
	}
	if err := job.Check(); err != nil {
		return nil, &JobError{err.Error()}
	}
	log := &inputLog{}
	shelf, err := loadBooks(files, job, log)
	if err != nil {
		return nil, err
	}
	again, err := rereadable(ctx, files, job.Proposals.File)
	if err != nil {
		return nil, err
	}
	projects := findProjects(ctx, again, job.Proposals, job.SearchRadius.Metres)
	from := &loader{files: files, log: log, places: projects.places, day: job.DecisionDate.Time, asDrawn: job.NoRepair}
	layers, err := await(ctx, func() (*mapped, error) { return from.layers(job) })
	if err != nil {
		return nil, err
	}
	layers.setback = shelf.setback()
	opening, every := shelf.shown()
	run := &run{
		job: job, log: log, report: &Report{}, workers: options.Workers, progress: options.Progress,
		basis: basis{
			layers: layers, shelf: shelf, source: job.Proposals, projects: projects, opening: shelf.widestOpening(),
			radius: job.SearchRadius.Metres, unverified: job.Unverified,
		},
	}
	if run.workers <= 0 {
		run.workers = runtime.GOMAXPROCS(0)
	}
	run.workers = min(run.workers, maxWorkers)
	run.layerDefects()
	run.report.Idle = shelf.idleText()
	run.report.NoLayer = run.unanswered()
	run.out, err = newWriters(outputs, summaryColumns(shelf.current, layers.areas, opening, every), featureColumns(shelf.current, layers.areas, opening, every), job.Unverified)
	if err != nil {
		return nil, err
	}
	if err := run.proposals(ctx, again); err != nil {
		run.out.close()
		return nil, err
	}
	run.report.Warnings, run.report.Doubts = slices.Concat(log.warnings(), layers.twice), append(layers.doubts(run.radius), contradicted(layers, run.radius)...)
	for b, paths := range run.paths {
		if len(paths) > 0 { // it has decided
			of := limitsOf(b)
			run.report.Limits += of.Used
			run.report.Unread += of.Unread
		}
	}
	for _, b := range shelf.live() {
		record := run.bookRecord(b)
		for _, path := range slices.Sorted(maps.Keys(record.Notices)) {
			for _, text := range record.Notices[path] {
				if said := fmt.Sprintf("%s, %s: %s", b.Authority, path, text); !slices.Contains(run.report.Notices, said) {
					run.report.Notices = append(run.report.Notices, said)
				}
			}
		}
	}
	return run.report, run.manifest(outputs, options.Version)
}

// maxWorkers is more than any machine can make use of.
const maxWorkers = 1024

// run is the state of one run.
type run struct {
	basis
	job     *Job
	log     *inputLog
	out     *writers
	workers int
	report  *Report

	progress func(done, of int)
	paths    map[*rules.Book]map[string]int // how many proposals came out on a path
}

// proposals reads, screens and writes the proposals, in their order.
func (r *run) proposals(ctx context.Context, files Files) error {
	r.paths = map[*rules.Book]map[string]int{}
	for _, b := range r.shelf.live() {
		r.paths[b] = map[string]int{}
	}
	var after []geojson.Member
	var readErr error
	features := func(yield func(*geojson.Feature) bool) { after, readErr = r.read(files, yield) }
	err := inOrder(ctx, features, r.workers, func(f *geojson.Feature) *rows {
		return r.out.format(r.screen(newProposal(f, r.job.Proposals)))
	}, func(made *rows) error {
		r.count(made.result)
		if r.progress != nil {
			r.progress(r.report.Proposals, r.basis.projects.all)
		}
		return r.out.write(made)
	})
	switch {
	case err != nil: // the reader may still be at work
		return err
	case readErr != nil:
		return readErr
	}
	return r.out.finish(after)
}

// read yields every proposal, and returns the members that stand behind the features.
func (r *run) read(files Files, yield func(*geojson.Feature) bool) (after []geojson.Member, err error) {
	source := r.job.Proposals
	input, err := files.Open(source.File)
	if err != nil {
		return nil, &JobError{fmt.Sprintf("proposals: cannot be opened: %v", err)}
	}
	defer input.Close()
	counted := r.log.begin("proposals", source.File, input)
	reader, err := newReader(source.File, counted, source.CRS)
	if err != nil {
		return nil, err
	}
	first, missing := map[string]int{}, newSought(source.Properties, "")
	for {
		f, err := reader.Next()
		if err == io.EOF {
			if err := refuse(reader, source.File); err != nil {
				return nil, err
			}
			if counted.record.Features == counted.record.Unusable && !reader.Stray().IsEmpty() {
				return nil, &geojson.FileError{File: source.File, Wrong: strayText("proposals", reader.Stray(), r.layers.extent())}
			}
			counted.settle(reader)
			counted.record.Warnings = append(counted.record.Warnings, missing.warnings("proposals", source.File)...)
			r.report.Datums = r.layers.datums(reader.CRS().Datum)
			return reader.After(), counted.finish()
		}
		if err != nil {
			return nil, err
		}
		counted.feature(f)
		missing.see(f)
		source.Properties.identify(f)
		if f.Number == 1 { // before the writer can see it
			r.out.proposals.before = reader.Before()
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
	if result.p.err != nil {
		r.report.Unusable++
		r.report.Messages = append(r.report.Messages, result.p.err.Error())
		return
	}
	for _, d := range result.decisions {
		r.paths[d.Book][outcome(&d)]++
	}
}

// layerDefects reports the features of layers that could not be used, or not as
// drawn.
func (r *run) layerDefects() {
	for _, l := range r.layers.all() {
		for _, d := range l.geo.Defects {
			r.report.Defects++
			r.report.Messages = append(r.report.Messages, d.Err.Error())
		}
		for _, p := range l.repairs {
			r.report.Repairs = append(r.report.Repairs, p.text)
		}
	}
}

// Interrupted reports whether a run ended because it was told to.
func Interrupted(err error) bool { return errors.Is(err, context.Canceled) }
