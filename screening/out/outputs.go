package out

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

// File is one file being written, with its record for run.json.
type File struct {
	name  string
	To    io.WriteCloser
	sum   hash.Hash
	bytes int64
}

func Create(outputs Outputs, name string) (*File, error) {
	to, err := outputs.Create(name)
	if err != nil {
		return nil, err
	}
	return &File{name: name, To: to, sum: sha256.New()}, nil
}

func (o *File) Write(p []byte) (int, error) {
	n, err := o.To.Write(p)
	o.sum.Write(p[:n])
	o.bytes += int64(n)
	return n, err
}

type Record struct {
	File   string `json:"file"`
	SHA256 string `json:"sha256"`
	Bytes  int64  `json:"bytes"`
}

func (o *File) Record() Record {
	return Record{o.name, hex.EncodeToString(o.sum.Sum(nil)), o.bytes}
}

// Collection writes a feature collection feature by feature.
type Collection struct {
	Out     io.Writer
	Before  []geojson.Member
	started bool
	Err     error
}

func (c *Collection) write(text ...[]byte) {
	if c.Err == nil {
		_, c.Err = c.Out.Write(bytes.Join(text, nil))
	}
}

func (c *Collection) begin() {
	head := c.Before
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

func (c *Collection) Add(feature []byte) {
	separator := []byte(",\n")
	if !c.started {
		c.begin()
		separator = []byte("\n")
	}
	c.write(separator, feature)
}

func (c *Collection) End(after []geojson.Member) {
	if !c.started {
		c.begin()
	}
	c.write([]byte("\n]"))
	for _, m := range after {
		if m.Key != "type" || hasType(c.Before) {
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

// LineFeature is a line of the plane as a feature.
func LineFeature(plane *crs.Plane, line []orb.Point, properties []geojson.Member) []byte {
	return feature("LineString", properties, func(b *bytes.Buffer) { writeLine(b, plane, line) })
}

// LinesFeature is several lines of the plane as a feature.
func LinesFeature(plane *crs.Plane, lines [][]orb.Point, properties []geojson.Member) []byte {
	return feature("MultiLineString", properties, func(b *bytes.Buffer) {
		jsonList(b, len(lines), func(i int) { writeLine(b, plane, lines[i]) })
	})
}

// AreaFeature is an area in degrees as a feature.
func AreaFeature(area orb.MultiPolygon, properties []geojson.Member) []byte {
	return feature("MultiPolygon", properties, func(b *bytes.Buffer) {
		jsonList(b, len(area), func(i int) {
			jsonList(b, len(area[i]), func(k int) {
				jsonList(b, len(area[i][k]), func(n int) { b.WriteString(Position(area[i][k][n])) })
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
	jsonList(b, len(line), func(i int) { b.WriteString(Position(plane.Inverse(line[i]))) })
}

// jsonList writes the elements of a JSON array.
func jsonList(b *bytes.Buffer, n int, element func(i int)) {
	b.WriteByte('[')
	for i := range n {
		if i > 0 {
			b.WriteByte(',')
		}
		element(i)
	}
	b.WriteByte(']')
}

// Table writes RFC 4180.
type Table struct{ *csv.Writer }

func NewTable(to io.Writer, header []string) *Table {
	t := &Table{csv.NewWriter(to)}
	t.UseCRLF = true
	t.Write(header)
	return t
}
