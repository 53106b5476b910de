package screening

import (
	"cmp"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/geojson"
	"waterward/screening/job"
	"waterward/screening/out"
)

// writers are the row-by-row outputs of a run.
type writers struct {
	files                        []*out.File
	proposals, measured, setback *out.Collection
	summary, criteria            *out.Table
	summaryColumns, added        []column
	unverified                   bool // show interpretations that rest on unverified figures
}

func newWriters(outputs out.Outputs, summary, added []column, unverified bool) (*writers, error) {
	w := &writers{summaryColumns: summary, added: added, unverified: unverified}
	for _, name := range []string{"proposals.geojson", "measured.geojson", "setbacks.geojson", "summary.csv", "criteria.csv"} {
		o, err := out.Create(outputs, name)
		if err != nil {
			w.close()
			return nil, err
		}
		w.files = append(w.files, o)
	}
	w.proposals, w.measured, w.setback = &out.Collection{Out: w.files[0]}, &out.Collection{Out: w.files[1]}, &out.Collection{Out: w.files[2]}
	header := make([]string, len(summary))
	for i, c := range summary {
		header[i] = c.name
	}
	w.summary, w.criteria = out.NewTable(w.files[3], header), out.NewTable(w.files[4], criteriaHeader)
	return w, nil
}

// rows is one result as the outputs take it, made by the workers.
type rows struct {
	feature            []byte
	measured, setbacks [][]byte
	summary            []string
	criteria           [][]string
	result             *result
}

func (w *writers) format(r *result) *rows {
	made := &rows{
		feature: r.p.Feature.Annotated(r.properties(w.added)),
		summary: r.row(w.summaryColumns), criteria: r.criteria(w.unverified), result: r,
	}
	if r.site == nil {
		return made
	}
	plane := r.site.Footprint.Plane
	id := out.Text(r.p.Id).JSON
	for _, d := range r.site.Drawn {
		length := math.Hypot(d.From[0]-d.To[0], d.From[1]-d.To[1])
		if length == 0 {
			continue // touching: there is no line between the two points
		}
		made.measured = append(made.measured, out.LineFeature(plane, []orb.Point{d.From, d.To}, []geojson.Member{
			{Key: "id", Raw: id},
			{Key: "measure", Raw: out.Text(d.Measure).JSON},
			{Key: "length_ft", Raw: out.Number(length/job.Foot, 2).JSON},
			{Key: "layer", Raw: out.Text(d.Layer).JSON},
			{Key: "feature", Raw: out.Text(d.Feature).JSON},
		}))
	}
	for _, l := range r.limits {
		made.setbacks = append(made.setbacks, out.LineFeature(plane, l.Line, []geojson.Member{
			{Key: "id", Raw: id},
			{Key: "measure", Raw: out.Text(l.Measure).JSON},
			{Key: "distance_ft", Raw: out.Number(l.Distance/job.Foot, 2).JSON},
			{Key: "layer", Raw: out.Text(l.Layer).JSON},
			{Key: "criteria", Raw: out.Text(strings.Join(l.Criteria, "; ")).JSON},
		}))
	}
	return made
}

func (w *writers) write(r *rows) error {
	w.proposals.Add(r.feature)
	for _, f := range r.measured {
		w.measured.Add(f)
	}
	for _, f := range r.setbacks {
		w.setback.Add(f)
	}
	w.summary.Write(r.summary)
	for _, row := range r.criteria {
		w.criteria.Write(row)
	}
	return w.fault()
}

// fault is the first fault of writing, if any.
func (w *writers) fault() error {
	return cmp.Or(w.proposals.Err, w.measured.Err, w.setback.Err, w.summary.Error(), w.criteria.Error())
}

// finish ends every file and returns the first fault of writing.
func (w *writers) finish(after []geojson.Member) error {
	w.proposals.End(after)
	w.measured.End(nil)
	w.setback.End(nil)
	w.summary.Flush()
	w.criteria.Flush()
	return cmp.Or(w.fault(), w.close())
}

func (w *writers) close() error {
	var first error
	for _, o := range w.files {
		if err := o.To.Close(); err != nil && first == nil {
			first = err
		}
	}
	return first
}
