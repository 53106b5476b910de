package main

import (
	"bufio"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
)

// decimals of a degree: half a unit of the seventh is 0.018 ft.
const decimals = 7

// shape is a geometry: parts of rings or lines of places; no parts, no geometry.
type shape struct {
	form  string // Point, LineString or Polygon
	parts [][][]point
}

func line(places ...point) shape     { return shape{"LineString", [][][]point{{places}}} }
func polygon(rings ...[]point) shape { return shape{"Polygon", [][][]point{rings}} }
func rectangle(x0, y0, x1, y1 float64) shape {
	return polygon([]point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}})
}

// layer is a file of features, one to a line. The first error stays in out.
type layer struct {
	file               *os.File
	out                *bufio.Writer
	features, vertices int
	text               []byte
}

func createLayer(dir, name string) (*layer, error) {
	file, err := os.Create(filepath.Join(dir, name+".geojson"))
	if err != nil {
		return nil, err
	}
	l := &layer{file: file, out: bufio.NewWriterSize(file, 1<<16)}
	fmt.Fprintf(l.out, `{"type":"FeatureCollection","name":"%s","features":[`, name)
	return l, nil
}

// put writes a feature that lies in a strand's plane.
func (l *layer) put(p plane, properties fields, s shape) {
	b := l.text[:0]
	if l.features > 0 {
		b = append(b, ',')
	}
	b = append(b, '\n')
	b = append(b, `{"type":"Feature","properties":{`...)
	b = append(b, properties...)
	b = append(b, `},"geometry":`...)
	b = l.geometry(b, p, s)
	l.text = append(b, '}')
	l.features++
	l.out.Write(l.text)
}

func (l *layer) geometry(b []byte, p plane, s shape) []byte {
	if len(s.parts) == 0 {
		return append(b, "null"...)
	}
	depth := map[string]int{"Point": 0, "LineString": 1, "Polygon": 2}[s.form]
	multi := ""
	if len(s.parts) > 1 {
		multi = "Multi"
	}
	b = fmt.Appendf(b, `{"type":"%s%s","coordinates":`, multi, s.form)
	b = list(b, len(s.parts), len(s.parts) > 1, func(b []byte, i int) []byte {
		return list(b, len(s.parts[i]), depth == 2, func(b []byte, j int) []byte {
			return list(b, len(s.parts[i][j]), depth > 0, func(b []byte, k int) []byte {
				l.vertices++
				lon, lat := p.degrees(s.parts[i][j][k])
				b = strconv.AppendFloat(append(b, '['), lon, 'f', decimals, 64)
				b = strconv.AppendFloat(append(b, ','), lat, 'f', decimals, 64)
				return append(b, ']')
			})
		})
	})
	return append(b, '}')
}

// list appends n items, in brackets if the form has some at this depth.
func list(b []byte, n int, brackets bool, item func([]byte, int) []byte) []byte {
	if brackets {
		b = append(b, '[')
	}
	for i := range n {
		if i > 0 {
			b = append(b, ',')
		}
		b = item(b, i)
	}
	if brackets {
		b = append(b, ']')
	}
	return b
}

func (l *layer) close() error {
	l.out.WriteString("\n]}\n")
	return errors.Join(l.out.Flush(), l.file.Close())
}

// fields are the properties of a feature, as JSON.
type fields []byte

func (f fields) name(name string) fields {
	if len(f) > 0 {
		f = append(f, ',')
	}
	return append(strconv.AppendQuote(f, name), ':')
}

func (f fields) text(name, value string) fields {
	return strconv.AppendQuote(f.name(name), value)
}

// number writes a length or ratio to a ten-thousandth.
func (f fields) number(name string, value float64) fields {
	return strconv.AppendFloat(f.name(name), math.Round(value*1e4)/1e4, 'f', -1, 64)
}

// named are the properties of the n-th feature of a layer.
func named(prefix string, n int) fields {
	return fields{}.text("id", prefix+strconv.Itoa(n))
}

const jobText = `# Marrowby County, Teal Sound: an invented coast in open water.
decision_date: 2026-11-25
books: [us-fl-state, us-fl-lands, us-federal]
proposals: {file: proposals.geojson, accuracy: 0.2 ft}
layers:
  high_water: {file: mhw.geojson, datum: NAVD88, epoch: 1983-2001, date: 2026-05-12}
  low_water: {file: mlw.geojson, datum: NAVD88, epoch: 1983-2001, date: 2026-05-12}
  seagrass: {file: seagrass.geojson, surveyed: surveyed.geojson, accuracy: 1 ft, date: 2024-08-20}
  wetlands: {file: wetlands.geojson, surveyed: surveyed.geojson, accuracy: 1 ft, date: 2025-04-03}
  channels: {file: channels.geojson, surveyed: surveyed.geojson, accuracy: 3 ft, date: 2025-02-01}
  riparian: {file: riparian.geojson, surveyed: surveyed.geojson, accuracy: 0.1 ft, date: 2026-05-12}
  parcels: {file: parcels.geojson, key: parcel_id}
  areas:
    aquatic_preserve: {file: preserve.geojson, surveyed: surveyed.geojson, accuracy: 10 ft, date: 2023-01-01}
    critical_habitat: {file: habitat.geojson, surveyed: surveyed.geojson, accuracy: 10 ft, date: 2023-01-01}
`
