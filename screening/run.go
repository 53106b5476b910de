package screening

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"

	"waterward/rules"
	"waterward/screening/job"
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
	var since *earlier
	if options.Since != nil {
		if since, err = readEarlier(options.Since); err != nil {
			return nil, err
		}
	}
	o.options.Progress.Doing("reading proposals")
	in, err := newIntake(ctx, files, j)
	if err != nil {
		return nil, err
	}
	roster, err := newRoster(ctx, in)
	if err != nil {
		return nil, err
	}
	if o.options.Sheets, err = options.Sheets.settled(roster); err != nil {
		return nil, err
	}
	projects := findProjects(ctx, roster, j.SearchRadius.Metres)
	if err := o.openLayers(ctx, files, projects.places); err != nil {
		return nil, err
	}
	run := &run{
		since: since, field: newFieldFiles(j, options.Field),
		setup: setup{
			opened: o, roster: roster, projects: projects, opening: o.books.WidestOpening(),
			radius: j.SearchRadius.Metres, unverified: j.Unverified,
		},
		report: &Report{Idle: o.books.IdleText()},
		sums:   count{map[outcome]int{}, map[string]int{}}, unknown: words{},
	}
	run.report.Messages, run.report.Repairs = o.faults()
	run.report.Defects = len(run.report.Messages)
	run.report.NoLayer = run.unanswered()
	if run.out, err = run.newOutputs(to); err != nil {
		return nil, err
	}
	if err := run.proposals(ctx); err != nil {
		run.out.Close()
		return nil, err
	}
	run.report.Warnings = slices.Concat(in.warnings(), run.unknown.told(), run.gaveWay.told(), o.log.Warnings(), o.layers.Twice, run.field.warnings())
	if len(run.undrawn) > 0 {
		run.report.Warnings = append(run.report.Warnings, fmt.Sprintf("no sheets are drawn of %s, which cannot be measured", job.Few(run.undrawn)))
	}
	run.report.Doubts = append(o.layers.Doubts(run.radius), site.Contradicted(o.layers, run.radius)...)
	run.report.Outcomes, run.report.Requests = run.sums.byAuthority(o.books.Live()), run.sums.often()
	run.note()
	if err := run.out.Finish(); err != nil { // the page tells all of the report
		return nil, err
	}
	return run.report, run.writeManifest(to)
}

// run is the state of one run.
type run struct {
	setup
	since   *earlier // nil if it is compared with none
	field   *fieldFiles
	out     *outputs
	report  *Report
	paths   map[*rules.Book]map[string]int // how many proposals came out on a path
	sums    count
	unknown words
	gaveWay gaveWay
	undrawn []string // of what sheets were asked for, and nothing could be measured
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
func (r *run) proposals(ctx context.Context) error {
	r.paths = map[*rules.Book]map[string]int{}
	for _, b := range r.books.Live() {
		r.paths[b] = map[string]int{}
	}
	var readErr error
	submissions := func(yield func(*site.Submission) bool) { readErr = r.roster.intake.read(ctx, r, yield) }
	r.options.Progress.Done(0, r.roster.all)
	type screened struct {
		*result
		put func() error
	}
	err := work.InOrder(ctx, submissions, r.options.Workers, func(s *site.Submission) screened {
		found := r.screen(site.NewProposal(s))
		if r.options.Field {
			found.marked = found.mark()
		}
		if r.since != nil {
			found.changes = r.since.changes(found, r.out.measures, r.out.summary)
		}
		return screened{found, r.out.Prepare(found)}
	}, func(s screened) error {
		r.count(s.result)
		r.options.Progress.Done(r.report.Proposals, r.roster.all)
		return s.put()
	})
	switch {
	case err != nil: // the reader may still be at work
		return err
	case readErr != nil:
		return readErr
	}
	return nil
}

func (r *run) count(result *result) {
	r.report.Proposals++
	r.gaveWay.add(result)
	if len(result.changes) > 0 {
		r.report.Changed++
	}
	if result.p.Of.Aside != "" {
		r.report.Aside++
		return
	}
	if result.site == nil && slices.Contains(r.options.Sheets.IDs, result.p.ID) {
		r.undrawn = append(r.undrawn, result.p.ID)
	}
	if result.p.Err != nil {
		r.report.Unusable++
		r.report.Messages = append(r.report.Messages, result.p.Err.Error())
		return
	}
	for _, d := range result.decisions {
		r.paths[d.Book][pathText(&d)]++
	}
	r.sums.add(result)
	r.unknown.add(result)
}

// Interrupted reports whether a run ended because it was told to.
func Interrupted(err error) bool { return errors.Is(err, context.Canceled) }
