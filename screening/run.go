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
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/out"
	"waterward/screening/site"
	"waterward/screening/work"
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
func Run(ctx context.Context, j *job.Job, files job.Files, outputs out.Outputs, options Options) (*Report, error) {
	if err := j.UsePresets(files); err != nil {
		return nil, err
	}
	if err := j.Check(); err != nil {
		return nil, &job.Error{Message: err.Error()}
	}
	log := &inputs.Log{}
	shelf, err := inputs.LoadBooks(files, j, log)
	if err != nil {
		return nil, err
	}
	again, err := inputs.Rereadable(ctx, files, j.Proposals.File)
	if err != nil {
		return nil, err
	}
	projects := findProjects(ctx, again, j.Proposals, j.SearchRadius.Metres)
	from := &layers.Loader{Files: files, Log: log, Places: projects.places, Day: j.DecisionDate.Time, AsDrawn: j.NoRepair}
	mapped, err := inputs.Await(ctx, func() (*layers.Set, error) { return from.Load(j) })
	if err != nil {
		return nil, err
	}
	mapped.Setback = shelf.Setback()
	opening, every := shelf.Shown()
	run := &run{
		job: j, log: log, report: &Report{}, workers: options.Workers, progress: options.Progress,
		basis: basis{
			layers: mapped, shelf: shelf, source: j.Proposals, projects: projects, opening: shelf.WidestOpening(),
			radius: j.SearchRadius.Metres, unverified: j.Unverified,
		},
	}
	if run.workers <= 0 {
		run.workers = runtime.GOMAXPROCS(0)
	}
	run.workers = min(run.workers, maxWorkers)
	run.layerDefects()
	run.report.Idle = shelf.IdleText()
	run.report.NoLayer = run.unanswered()
	run.out, err = newWriters(outputs, summaryColumns(shelf.Current, mapped.Areas, opening, every), featureColumns(shelf.Current, mapped.Areas, opening, every), j.Unverified)
	if err != nil {
		return nil, err
	}
	if err := run.proposals(ctx, again); err != nil {
		run.out.close()
		return nil, err
	}
	run.report.Warnings, run.report.Doubts = slices.Concat(log.Warnings(), mapped.Twice), append(mapped.Doubts(run.radius), site.Contradicted(mapped, run.radius)...)
	for b, paths := range run.paths {
		if len(paths) > 0 { // it has decided
			of := limitsOf(b)
			run.report.Limits += of.Used
			run.report.Unread += of.Unread
		}
	}
	for _, b := range shelf.Live() {
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
	job     *job.Job
	log     *inputs.Log
	out     *writers
	workers int
	report  *Report

	progress func(done, of int)
	paths    map[*rules.Book]map[string]int // how many proposals came out on a path
}

// proposals reads, screens and writes the proposals, in their order.
func (r *run) proposals(ctx context.Context, files job.Files) error {
	r.paths = map[*rules.Book]map[string]int{}
	for _, b := range r.shelf.Live() {
		r.paths[b] = map[string]int{}
	}
	var after []geojson.Member
	var readErr error
	features := func(yield func(*geojson.Feature) bool) { after, readErr = r.read(files, yield) }
	err := work.InOrder(ctx, features, r.workers, func(f *geojson.Feature) *rows {
		return r.out.format(r.screen(site.NewProposal(f, r.job.Proposals)))
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
func (r *run) read(files job.Files, yield func(*geojson.Feature) bool) (after []geojson.Member, err error) {
	source := r.job.Proposals
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
	if result.p.Err != nil {
		r.report.Unusable++
		r.report.Messages = append(r.report.Messages, result.p.Err.Error())
		return
	}
	for _, d := range result.decisions {
		r.paths[d.Book][outcome(&d)]++
	}
}

// layerDefects reports the features of layers that could not be used, or not as
// drawn.
func (r *run) layerDefects() {
	for _, l := range r.layers.All() {
		for _, d := range l.Geo.Defects {
			r.report.Defects++
			r.report.Messages = append(r.report.Messages, d.Err.Error())
		}
		for _, p := range l.Repairs {
			r.report.Repairs = append(r.report.Repairs, p.Text)
		}
	}
}

// Interrupted reports whether a run ended because it was told to.
func Interrupted(err error) bool { return errors.Is(err, context.Canceled) }
