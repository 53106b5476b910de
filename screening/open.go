package screening

import (
	"context"
	"io"
	"runtime"

	"waterward/geo/flat"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// Options are what a run can be told besides its job. The zero value works.
type Options struct {
	Workers int    // how many pieces of work are done at once; 0: one for each processor
	Version string // of the tool, for run.json
	// Since, if set, opens the results of an earlier screening, by the names of its files, to
	// say what has changed since.
	Since func(name string) (io.ReadCloser, error)
	// Field asks for the files that are taken to the shore: field.kmz, field.gpx, stakeout.csv.
	Field  bool
	Sheets Sheets // of which proposals sheets are drawn
	// AllPaths has an envelope work out, and draw, every path and not only the easiest.
	AllPaths bool
	// Chosen says of which parcels an envelope is worked out.
	Chosen Chosen
	// Progress, if set, is told how far long work has come.
	Progress Progress
}

// Progress is told what a run is at.
type Progress interface {
	// Doing is told what goes on from now on, until there are results.
	Doing(what string)
	// Done is told how many results there are, of how many; of the first, that there are none.
	Done(done, of int)
}

// silence is the progress that nobody is told.
type silence struct{}

func (silence) Doing(string)  {}
func (silence) Done(int, int) {}

// maxWorkers is more than any machine can make use of.
const maxWorkers = 1024

// opened is a job with what it names read: what every run begins with.
type opened struct {
	job     *job.Job
	log     *inputs.Log
	books   *inputs.BookSet
	layers  *layers.Set
	options Options
}

// openBooks settles a job and reads its rule books. check says whether the job can be run.
func openBooks(j *job.Job, files job.Files, check func(*job.Job) error, options Options) (*opened, error) {
	o := &opened{job: j, log: &inputs.Log{}, options: options}
	if o.options.Workers <= 0 {
		o.options.Workers = runtime.GOMAXPROCS(0)
	}
	o.options.Workers = min(o.options.Workers, maxWorkers)
	if o.options.Progress == nil {
		o.options.Progress = silence{}
	}
	var err error
	o.books, err = inputs.Begin(files, j, check, o.log)
	return o, err
}

// openLayers reads the job's layers; of places, if given, only what lies near them.
func (o *opened) openLayers(ctx context.Context, files job.Files, places *flat.Places) error {
	o.options.Progress.Doing("reading layers")
	from := &layers.Loader{Files: files, Log: o.log, Places: places, Day: o.job.DecisionDate.Time, AsDrawn: o.job.NoRepair}
	mapped, err := inputs.Await(ctx, func() (*layers.Set, error) { return from.Load(o.job) })
	if err != nil {
		return err
	}
	mapped.Setback = o.books.Setback()
	o.layers = mapped
	return nil
}

// faults are the features of layers that could not be used, and the areas that were
// rebuilt.
func (o *opened) faults() (messages, repairs []string) {
	for _, l := range o.layers.All() {
		for _, d := range l.Geo.Defects {
			messages = append(messages, d.Err.Error())
		}
		for _, r := range l.Repairs {
			repairs = append(repairs, r.Text)
		}
	}
	return messages, repairs
}

// inputs are the records of what was read, with what is stated of each.
func (o *opened) inputs() []*inputs.Record {
	read := o.log.Sorted()
	for _, in := range read {
		o.layers.Stated(in)
	}
	return read
}
