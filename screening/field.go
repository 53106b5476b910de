package screening

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/paulmach/orb/simplify"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/screening/field"
	"waterward/screening/job"
)

// What whoever goes out with any of the files must know; the second stands at every place.
const (
	fromMaps = "places are from maps, not surveyed, and a receiver errs by several feet"
	toFind   = "to find, not to stake"
)

// marks gathers what of a result is taken to the shore.
type marks struct {
	*result
	to *field.Site
}

// mark is what of the result is taken to the shore; nil if it was not measured.
func (r *result) mark() *field.Site {
	if r.site == nil {
		return nil
	}
	m := marks{r, &field.Site{ID: r.p.ID, Caution: r.caution()}}
	for i, e := range r.site.Elements() {
		m.element(i+1, &r.site.Footprint.Elements[e])
	}
	m.openings()
	m.distances()
	m.near("high_water", field.HighWater)
	m.near("riparian", field.Riparian)
	return m.to
}

// caution says what the positions are good for, on which datum they are, and how far off
// that leaves them.
func (r *result) caution() string {
	own := r.p.Of.CRS().Datum
	said := []string{toFind + "; positions on " + string(own)}
	if shift := crs.DatumShift(own, crs.WGS84); shift > 0 {
		said[0] += ", not shifted to WGS 84, on which receivers show them: up to " + job.FeetText(shift) + " off"
	}
	return strings.Join(append(said, r.site.Layers.Datums(own)...), "; ")
}

func (m *marks) point(kind field.Kind, of, name, says string, at orb.Point) {
	m.to.Points = append(m.to.Points, field.Point{Kind: kind, Of: of, Name: name, Says: says, At: m.site.Footprint.Plane.Inverse(at)})
}

func (m *marks) end(of, name, says string, at orb.Point) {
	m.to.Ends = append(m.to.Ends, field.Point{Kind: field.Distances, Of: of, Name: name, Says: says, At: m.site.Footprint.Plane.Inverse(at)})
}

func (m *marks) line(kind field.Kind, name, says string, line []orb.Point) {
	m.to.Lines = append(m.to.Lines, field.Line{Kind: kind, Name: name, Says: says, Line: m.degrees(line)})
}

// degrees is a line of the plane in degrees, without the vertices that nobody would see.
func (m *marks) degrees(line []orb.Point) []orb.Point {
	seen := simplify.DouglasPeucker(field.SamePlace).LineString(slices.Clone(line))
	if len(seen) < 4 && line[0] == line[len(line)-1] { // a ring needs them
		seen = line
	}
	made := make([]orb.Point, len(seen))
	for i, p := range seen {
		made[i] = m.site.Footprint.Plane.Inverse(p)
	}
	return made
}

// element marks the element of a number.
func (m *marks) element(number int, e *geo.Element) {
	of := fmt.Sprintf("element %d", number)
	outline := e.Outline()
	if len(outline) > 0 {
		m.outline(of, e, outline)
	}
	switch {
	case e.Discs:
		m.centres(number, of, e)
	case len(outline) == 0:
		ends, off := field.EndsOf(e.Lines, true)
		for _, c := range ends {
			what := "bend"
			if c.End {
				what = "end"
			}
			m.point(field.Corners, of, fmt.Sprintf("%d %s %s", number, what, c.Name), what+" of "+of+" as drawn, a line without a width"+between(off), c.At)
		}
		for _, line := range e.Lines {
			m.line(field.Outlines, of, of+" as drawn: a line whose width is not stated, so that its outline is not known", line)
		}
	default:
		corners, off := field.CornersOf(outline)
		for i, c := range corners {
			m.point(field.Corners, of, fmt.Sprintf("%d %s", number, c.Name), fmt.Sprintf("corner of %s, %d of %d, clockwise%s", of, i+1, len(corners), between(off)), c.At)
		}
		ends, _ := field.EndsOf(e.Lines, false)
		for _, c := range ends {
			m.point(field.Corners, of, fmt.Sprintf("%d end %s", number, c.Name), "end of the middle line of "+of, c.At)
		}
	}
}

// between says how far straight strings from one corner to the next are off.
func between(off float64) string {
	switch {
	case math.IsNaN(off):
		return "; it has more, and these are the outermost"
	case off < field.SamePlace:
		return ""
	}
	return "; straight lines from one to the next lie within " + job.FeetText(off) + " of it"
}

func (m *marks) outline(of string, e *geo.Element, outline []orb.Polygon) {
	var drawn orb.MultiPolygon
	for _, polygon := range outline {
		var rings orb.Polygon
		for _, ring := range polygon {
			rings = append(rings, m.degrees(ring))
		}
		drawn = append(drawn, rings)
	}
	says := fmt.Sprintf("outline of %s, %s sq ft", of, job.Fixed(planar.Area(orb.MultiPolygon(outline))/job.SquareFoot, 1))
	if !e.Discs {
		says += ", " + job.FeetText(e.Length) + " long"
	}
	m.to.Lines = append(m.to.Lines, field.Line{Kind: field.Outlines, Name: of, Says: says, Area: drawn})
}

// centres marks discs, which have no corners.
func (m *marks) centres(number int, of string, e *geo.Element) {
	for i, line := range e.Lines {
		name := fmt.Sprintf("%d C", number)
		if len(e.Lines) > 1 {
			name += fmt.Sprint(i + 1)
		}
		says := "centre of " + of + ", drawn as a point whose diameter is not stated"
		if i < len(e.Areas) {
			radius := e.Areas[i].Bound().Max[0] - line[0][0]
			says = "centre of a disc of " + of + ", " + job.FeetText(2*radius) + " across"
		}
		m.point(field.Corners, of, name, says, line[0])
	}
}

// openings marks the openings; of lines without a width nobody knows how wide they are.
func (m *marks) openings() {
	if m.site.Footprint.Incomplete != "" {
		return
	}
	for _, o := range m.site.Openings() {
		of := "opening " + o.Name()
		says := of + ", " + job.FeetText(o.Width) + " of clear water where it is narrowest"
		m.line(field.Openings, of, says, []orb.Point{o.From, o.To})
		m.point(field.Openings, of, o.Name()+" a", fmt.Sprintf("%s: on element %d", says, o.First), o.From)
		m.point(field.Openings, of, o.Name()+" b", fmt.Sprintf("%s: on element %d", says, o.Second), o.To)
	}
}

// distances marks between which places the distances were measured, and the farthest toe;
// openings are marked each.
func (m *marks) distances() {
	for _, d := range m.site.Distances() {
		signed, from, to := d.Length, d.Line[0], d.Line[len(d.Line)-1]
		says := d.Title + ": " + job.FeetText(math.Abs(signed)) + d.Side()
		name := says
		if d.Feature != "" {
			says += " (" + d.Feature + ")"
		}
		if signed != 0 {
			m.line(field.Distances, name, says, []orb.Point{from, to})
		}
		if d.Measure == "mhw_farthest" {
			m.point(field.Toes, d.Title, "T", says, from)
		} else {
			m.end(d.Title, d.Measure+" from", says+"; measured from here", from)
		}
		m.end(d.Title, d.Measure+" to", says+"; measured to here", to)
	}
}

// near marks the lines of a layer round the structure.
func (m *marks) near(name string, kind field.Kind) {
	l := m.site.Layers.Layer(name)
	if l == nil {
		return
	}
	title := strings.TrimSuffix(strings.TrimPrefix(l.Title, "the "), "s")
	for _, a := range m.site.Around(l) {
		says := title + " as mapped (" + a.Item.Label + ")"
		if a.Item.Date != "" {
			says += ", of " + a.Item.Date
		}
		m.line(kind, title+" "+a.Item.Label, says, a.Line)
	}
}
