package screening

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"encoding/json"
	"hash"
	"io"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/geojson"
)

// Outputs creates the files of a run by name. Nothing is in its place before
// the run has succeeded; that is for its owner to see to.
type Outputs interface {
	Create(name string) (io.WriteCloser, error)
}

// output is one file being written, with its record for run.json.
type output struct {
	name  string
	to    io.WriteCloser
	sum   hash.Hash
	bytes int64
}

func create(outputs Outputs, name string) (*output, error) {
	to, err := outputs.Create(name)
	if err != nil {
		return nil, err
	}
	return &output{name: name, to: to, sum: sha256.New()}, nil
}

func (o *output) Write(p []byte) (int, error) {
	n, err := o.to.Write(p)
	o.sum.Write(p[:n])
	o.bytes += int64(n)
	return n, err
}

type outputRecord struct {
	File   string `json:"file"`
	SHA256 string `json:"sha256"`
	Bytes  int64  `json:"bytes"`
}

func (o *output) record() outputRecord {
	return outputRecord{o.name, hex.EncodeToString(o.sum.Sum(nil)), o.bytes}
}

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

// collection writes a feature collection feature by feature.
type collection struct {
	out     io.Writer
	before  []geojson.Member
	started bool
	err     error
}

func (c *collection) write(text ...[]byte) {
	if c.err == nil {
		_, c.err = c.out.Write(bytes.Join(text, nil))
	}
}

func (c *collection) begin() {
	head := c.before
	if !hasType(head) {
		head = append([]geojson.Member{{Key: "type", Raw: json.RawMessage(`"FeatureCollection"`)}}, head...)
	}
	c.write([]byte("{"))
	for _, m := range head {
		c.write(memberText(m), []byte(", "))
	}
	c.write([]byte("\"features\": ["))
	c.started = true
}

func (c *collection) add(feature []byte) {
	separator := []byte(",\n")
	if !c.started {
		c.begin()
		separator = []byte("\n")
	}
	c.write(separator, feature)
}

func (c *collection) end(after []geojson.Member) {
	if !c.started {
		c.begin()
	}
	c.write([]byte("\n]"))
	for _, m := range after {
		if m.Key != "type" || hasType(c.before) {
			c.write([]byte(", "), memberText(m))
		}
	}
	c.write([]byte("}\n"))
}

func hasType(members []geojson.Member) bool {
	for _, m := range members {
		if m.Key == "type" {
			return true
		}
	}
	return false
}

func memberText(m geojson.Member) []byte {
	key, _ := json.Marshal(m.Key)
	return append(append(key, ": "...), m.Raw...)
}

// lineFeature is a line of the plane as a feature.
func lineFeature(plane *crs.Plane, line []orb.Point, properties []geojson.Member) []byte {
	return feature("LineString", properties, func(b *bytes.Buffer) { writeLine(b, plane, line) })
}

// linesFeature is several lines of the plane as a feature.
func linesFeature(plane *crs.Plane, lines [][]orb.Point, properties []geojson.Member) []byte {
	return feature("MultiLineString", properties, func(b *bytes.Buffer) {
		list(b, len(lines), func(i int) { writeLine(b, plane, lines[i]) })
	})
}

// areaFeature is an area in degrees as a feature.
func areaFeature(area orb.MultiPolygon, properties []geojson.Member) []byte {
	return feature("MultiPolygon", properties, func(b *bytes.Buffer) {
		list(b, len(area), func(i int) {
			list(b, len(area[i]), func(k int) {
				list(b, len(area[i][k]), func(n int) { b.WriteString(formatPosition(area[i][k][n])) })
			})
		})
	})
}

func feature(kind string, properties []geojson.Member, coordinates func(*bytes.Buffer)) []byte {
	var b bytes.Buffer
	b.WriteString(`{"type": "Feature", "properties": {`)
	for i, m := range properties {
		if i > 0 {
			b.WriteString(", ")
		}
		b.Write(memberText(m))
	}
	b.WriteString(`}, "geometry": {"type": "` + kind + `", "coordinates": `)
	coordinates(&b)
	b.WriteString("}}")
	return b.Bytes()
}

func writeLine(b *bytes.Buffer, plane *crs.Plane, line []orb.Point) {
	list(b, len(line), func(i int) { b.WriteString(formatPosition(plane.Inverse(line[i]))) })
}

// list writes the elements of a JSON array.
func list(b *bytes.Buffer, n int, element func(i int)) {
	b.WriteByte('[')
	for i := range n {
		if i > 0 {
			b.WriteByte(',')
		}
		element(i)
	}
	b.WriteByte(']')
}

// table writes RFC 4180.
type table struct{ *csv.Writer }

func newTable(to io.Writer, header []string) *table {
	t := &table{csv.NewWriter(to)}
	t.UseCRLF = true
	t.Write(header)
	return t
}
