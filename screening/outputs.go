package screening

import (
	"bytes"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"encoding/json"
	"hash"
	"io"

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
