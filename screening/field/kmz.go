package field

import (
	"archive/zip"
	"image/color"
	"io"
	"math"
	"time"

	"github.com/paulmach/orb"
	"github.com/twpayne/go-geom"
	geomkml "github.com/twpayne/go-geom/encoding/kml"
	"github.com/twpayne/go-kml/v3"
)

// folders are how the kinds are shown, one over the other in their order.
var folders = [kinds]struct {
	id, title string
	line      color.RGBA
	width     float64 // pixels
}{
	Outlines:  {"outline", "Outlines", color.RGBA{255, 255, 0, 255}, 3},
	Corners:   {"corner", "Corners, ends and centres", color.RGBA{}, 0},
	Toes:      {"toe", "Farthest toes", color.RGBA{}, 0},
	Openings:  {"opening", "Openings", color.RGBA{255, 255, 255, 255}, 2},
	Distances: {"distance", "Distances measured", color.RGBA{255, 255, 255, 255}, 1},
	HighWater: {"high-water", "Mean high water near", color.RGBA{86, 180, 233, 255}, 3},
	Riparian:  {"riparian", "Riparian lines near", color.RGBA{230, 159, 0, 255}, 2},
}

// iconScale leaves room between the marks of corners a few feet apart.
const iconScale = 0.7

// packed is the time that files in the KMZ bear, the first that a zip file can hold: the
// same input gives the same bytes.
var packed = time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)

// WriteKMZ writes sites as a KMZ file.
func WriteKMZ(w io.Writer, about About, sites []*Site) error {
	archive := zip.NewWriter(w)
	doc, err := archive.CreateHeader(&zip.FileHeader{Name: "doc.kml", Method: zip.Deflate, Modified: packed})
	if err == nil {
		err = document(about, sites).Write(doc)
	}
	if err != nil {
		return err
	}
	return archive.Close()
}

func document(about About, sites []*Site) *kml.KMLElement {
	made := kml.Document(kml.Name(shown(about.Title)), kml.Description(about.Caution))
	of := make([]*kml.FolderElement, kinds)
	for i, f := range folders {
		style := kml.SharedStyle(f.id, kml.IconStyle(kml.Scale(iconScale)))
		if f.width > 0 {
			style.Append(kml.LineStyle(kml.Color(f.line), kml.Width(f.width)), kml.PolyStyle(kml.Fill(false)))
		}
		made.Append(style)
		of[i] = kml.Folder(kml.Name(f.title))
	}
	for _, s := range sites {
		for _, p := range s.Points {
			of[p.Kind].Append(s.placemark(p.Kind, p.Name, p.Says, geomkml.EncodePoint(geom.NewPointFlat(geom.XY, flat(nil, p.At)))))
		}
		for _, l := range s.Lines {
			of[l.Kind].Append(s.placemark(l.Kind, l.Name, l.Says, l.geometry()))
		}
	}
	for _, f := range of {
		if len(f.Children) > 1 {
			made.Append(f)
		}
	}
	return kml.KML(made)
}

func (s *Site) placemark(kind Kind, name, says string, geometry kml.Element) kml.Element {
	value := func(name, text string) kml.Element { return kml.Data(name, kml.Value(shown(text))) }
	return kml.Placemark(
		kml.Name(shown(s.ID+" "+name)),
		kml.StyleURL("#"+folders[kind].id),
		kml.ExtendedData(value("proposal", s.ID), value("what", says), value("caution", s.Caution)),
		geometry,
	)
}

func (l *Line) geometry() kml.Element {
	if l.Line != nil {
		return geomkml.EncodeLineString(geom.NewLineStringFlat(geom.XY, flat(nil, l.Line...)))
	}
	var coordinates []float64
	var ends [][]int
	for _, polygon := range l.Area {
		var of []int
		for _, ring := range polygon {
			coordinates = flat(coordinates, ring...)
			of = append(of, len(coordinates))
		}
		ends = append(ends, of)
	}
	if len(ends) == 1 {
		return geomkml.EncodePolygon(geom.NewPolygonFlat(geom.XY, coordinates, ends[0]))
	}
	return geomkml.EncodeMultiPolygon(geom.NewMultiPolygonFlat(geom.XY, coordinates, ends))
}

// flat appends positions, to decimals.
func flat(to []float64, positions ...orb.Point) []float64 {
	unit := math.Pow10(decimals)
	for _, p := range positions {
		to = append(to, math.Round(p[0]*unit)/unit, math.Round(p[1]*unit)/unit)
	}
	return to
}
