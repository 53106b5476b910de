package field

import (
	"encoding/xml"
	"io"
	"strconv"

	"github.com/paulmach/orb"
)

// gpx is a GPX 1.1 file, its elements in the order of the schema.
type gpx struct {
	XMLName  xml.Name   `xml:"http://www.topografix.com/GPX/1/1 gpx"`
	Version  string     `xml:"version,attr"`
	Creator  string     `xml:"creator,attr"`
	Name     string     `xml:"metadata>name"`
	Desc     string     `xml:"metadata>desc"`
	Waypoint []waypoint `xml:"wpt"`
	Track    []track    `xml:"trk"`
}

type waypoint struct {
	position
	Name string `xml:"name"`
	Desc string `xml:"desc"`
	Type string `xml:"type"`
}

type track struct {
	Name    string    `xml:"name"`
	Desc    string    `xml:"desc"`
	Type    string    `xml:"type"`
	Segment []segment `xml:"trkseg"`
}

type segment struct {
	Point []position `xml:"trkpt"`
}

type position struct {
	Lat string `xml:"lat,attr"`
	Lon string `xml:"lon,attr"`
}

// WriteGPX writes sites as a GPX file, points as waypoints and lines as tracks.
func WriteGPX(w io.Writer, about About, sites []*Site) error {
	made := gpx{Version: "1.1", Creator: "waterward", Name: shown(about.Title), Desc: about.Caution}
	short := shortNames(sites)
	for i, s := range sites {
		desc := func(says string) string { return shown(s.ID + ": " + says + "; " + s.Caution) }
		for _, p := range s.Points {
			made.Waypoint = append(made.Waypoint, waypoint{positionOf(p.At), short[i] + " " + p.short(), desc(p.Says), folders[p.Kind].id})
		}
		for _, l := range s.Lines {
			t := track{Name: shown(s.ID + " " + l.Name), Desc: desc(l.Says), Type: folders[l.Kind].id}
			if l.Line != nil {
				t.add(l.Line)
			}
			for _, polygon := range l.Area {
				for _, ring := range polygon {
					t.add(ring)
				}
			}
			made.Track = append(made.Track, t)
		}
	}
	if _, err := io.WriteString(w, xml.Header); err != nil {
		return err
	}
	encoder := xml.NewEncoder(w)
	encoder.Indent("", " ")
	if err := encoder.Encode(made); err != nil {
		return err
	}
	_, err := io.WriteString(w, "\n")
	return err
}

func (t *track) add(line []orb.Point) {
	var s segment
	for _, p := range line {
		s.Point = append(s.Point, positionOf(p))
	}
	t.Segment = append(t.Segment, s)
}

func positionOf(p orb.Point) position {
	return position{strconv.FormatFloat(p[1], 'f', decimals, 64), strconv.FormatFloat(p[0], 'f', decimals, 64)}
}
