package out

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
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

// Manifest is the name of the file that says what the others were made of.
const Manifest = "run.json"

// File is one file being written, with its record for run.json.
type File struct {
	name  string
	to    io.WriteCloser
	sum   hash.Hash
	bytes int64
	fault error // the first of writing it
	over  bool  // it is closed
}

func (s *files) create(name string) (*File, error) {
	to, err := s.to.Create(name)
	if err != nil {
		return nil, err
	}
	file := &File{name: name, to: to, sum: sha256.New()}
	s.all = append(s.all, file)
	return file, nil
}

// close may be called again.
func (f *File) close() error {
	if f.over {
		return nil
	}
	f.over = true
	return f.to.Close()
}

func (f *File) Write(p []byte) (int, error) {
	if f.fault != nil {
		return 0, f.fault
	}
	n, err := f.to.Write(p)
	f.sum.Write(p[:n])
	f.bytes += int64(n)
	f.fault = err
	return n, err
}

// Record is what run.json says of a file.
type Record struct {
	File   string `json:"file"`
	SHA256 string `json:"sha256"`
	Bytes  int64  `json:"bytes"`
}

func (f *File) record() Record {
	return Record{f.name, hex.EncodeToString(f.sum.Sum(nil)), f.bytes}
}

// LineFeature is a line of the plane as a feature.
func LineFeature(plane *crs.Plane, line []orb.Point, decimals int, properties []geojson.Member) []byte {
	return feature("LineString", properties, func(b *bytes.Buffer) { writeLine(b, plane, line, decimals) })
}

// LinesFeature is several lines in degrees as a feature.
func LinesFeature(lines orb.MultiLineString, decimals int, properties []geojson.Member) []byte {
	return feature("MultiLineString", properties, func(b *bytes.Buffer) {
		jsonList(b, len(lines), func(i int) {
			jsonList(b, len(lines[i]), func(n int) { b.WriteString(Position(lines[i][n], decimals)) })
		})
	})
}

// AreaFeature is an area in degrees as a feature.
func AreaFeature(area orb.MultiPolygon, decimals int, properties []geojson.Member) []byte {
	return feature("MultiPolygon", properties, func(b *bytes.Buffer) {
		jsonList(b, len(area), func(i int) {
			jsonList(b, len(area[i]), func(k int) {
				jsonList(b, len(area[i][k]), func(n int) { b.WriteString(Position(area[i][k][n], decimals)) })
			})
		})
	})
}

func feature(kind string, properties []geojson.Member, coordinates func(*bytes.Buffer)) []byte {
	var b bytes.Buffer
	b.WriteString(`{"type":"Feature","properties":{`)
	for i, m := range properties {
		if i > 0 {
			b.WriteByte(',')
		}
		b.Write(memberText(m))
	}
	b.WriteString(`},"geometry":{"type":"` + kind + `","coordinates":`)
	coordinates(&b)
	b.WriteString("}}")
	return b.Bytes()
}

func writeLine(b *bytes.Buffer, plane *crs.Plane, line []orb.Point, decimals int) {
	jsonList(b, len(line), func(i int) { b.WriteString(Position(plane.Inverse(line[i]), decimals)) })
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
