package screening

import (
	"cmp"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/geojson"
)

// writers are the row-by-row outputs of a run.
type writers struct {
	files                        []*output
	proposals, measured, setback *collection
	summary, criteria            *table
	summaryColumns, added        []column
	unverified                   bool // show readings that rest on unverified figures
}

func newWriters(outputs Outputs, summary, added []column, unverified bool) (*writers, error) {
	w := &writers{summaryColumns: summary, added: added, unverified: unverified}
	for _, name := range []string{"proposals.geojson", "measured.geojson", "setbacks.geojson", "summary.csv", "criteria.csv"} {
		o, err := create(outputs, name)
		if err != nil {
			w.close()
			return nil, err
		}
		w.files = append(w.files, o)
	}
	w.proposals, w.measured, w.setback = &collection{out: w.files[0]}, &collection{out: w.files[1]}, &collection{out: w.files[2]}
	header := make([]string, len(summary))
	for i, c := range summary {
		header[i] = c.name
	}
	w.summary, w.criteria = newTable(w.files[3], header), newTable(w.files[4], criteriaHeader)
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
	out := &rows{
		feature: r.p.feature.Annotated(r.properties(w.added)),
		summary: r.row(w.summaryColumns), criteria: r.criteria(w.unverified), result: r,
	}
	if r.site == nil {
		return out
	}
	plane := r.site.fp.Plane
	id := textCell(r.p.id).json
	for _, d := range r.site.drawn {
		length := math.Hypot(d.from[0]-d.to[0], d.from[1]-d.to[1])
		if length == 0 {
			continue // touching: there is no line between the two points
		}
		out.measured = append(out.measured, lineFeature(plane, []orb.Point{d.from, d.to}, []geojson.Member{
			{Key: "id", Raw: id},
			{Key: "measure", Raw: textCell(d.measure).json},
			{Key: "length_ft", Raw: numberCell(length/foot, 2).json},
			{Key: "layer", Raw: textCell(d.layer).json},
			{Key: "feature", Raw: textCell(d.feature).json},
		}))
	}
	for _, l := range r.limits {
		out.setbacks = append(out.setbacks, lineFeature(plane, l.line, []geojson.Member{
			{Key: "id", Raw: id},
			{Key: "measure", Raw: textCell(l.measure).json},
			{Key: "distance_ft", Raw: numberCell(l.distance/foot, 2).json},
			{Key: "layer", Raw: textCell(l.layer).json},
			{Key: "criteria", Raw: textCell(strings.Join(l.criteria, "; ")).json},
		}))
	}
	return out
}

func (w *writers) write(r *rows) error {
	w.proposals.add(r.feature)
	for _, f := range r.measured {
		w.measured.add(f)
	}
	for _, f := range r.setbacks {
		w.setback.add(f)
	}
	w.summary.Write(r.summary)
	for _, row := range r.criteria {
		w.criteria.Write(row)
	}
	return w.fault()
}

// fault is the first fault of writing, if any.
func (w *writers) fault() error {
	return cmp.Or(w.proposals.err, w.measured.err, w.setback.err, w.summary.Error(), w.criteria.Error())
}

// finish ends every file and returns the first fault of writing.
func (w *writers) finish(after []geojson.Member) error {
	w.proposals.end(after)
	w.measured.end(nil)
	w.setback.end(nil)
	w.summary.Flush()
	w.criteria.Flush()
	return cmp.Or(w.fault(), w.close())
}

func (w *writers) close() error {
	var first error
	for _, o := range w.files {
		if err := o.to.Close(); err != nil && first == nil {
			first = err
		}
	}
	return first
}
