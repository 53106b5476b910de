package screening

import (
	"fmt"
	"slices"
	"strings"

	"waterward/geo/geojson"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/out"
)

// measuredLines are what was measured, a line each: runs between openings of at least
// opening (metres), and openings narrower than narrow.
func (r *result) measuredLines(opening, narrow float64) [][]byte {
	if r.site == nil {
		return nil
	}
	var lines [][]byte
	for _, d := range r.site.DrawnLines(opening, narrow) {
		lines = append(lines, out.LineFeature(r.site.Footprint.Plane, d.Line, out.PositionDecimals, []geojson.Member{
			textMember("id", r.p.ID),
			textMember("measure", d.Measure),
			textMember("title", d.Title),
			feetMember("distance_ft", d.Length),
			feetMember("tolerance_ft", d.Tolerance),
			textMember("layer", d.Layer),
			textMember("feature", d.Feature),
		}))
	}
	return lines
}

// setbackLines are the limit lines near the proposal, with what sets them.
func (r *result) setbackLines() [][]byte {
	var lines [][]byte
	for _, l := range r.limits {
		var titles, authorities, paths, cites, criteria texts
		for _, of := range l.Of {
			titles.add(fmt.Sprintf("%s (%s)", of.Path.Title, of.Book.Authority))
			authorities.add(of.Book.Authority)
			paths.add(of.Path.Title)
			cites.add(of.Criterion.Cite)
			criteria.add(of.Book.Name + "/" + of.Path.ID + "/" + of.Criterion.ID)
		}
		lines = append(lines, out.LineFeature(r.site.Footprint.Plane, l.Line, out.PositionDecimals, []geojson.Member{
			textMember("id", r.p.ID),
			textMember("measure", l.Measure),
			textMember("title", l.Limit+" from "+layers.KindOfLayer(l.Layer).Title+": "+titles.joined()),
			feetMember("distance_ft", l.Distance),
			textMember("layer", l.Layer),
			textMember("authority", authorities.joined()),
			textMember("path", paths.joined()),
			textMember("cite", cites.joined()),
			textMember("criteria", criteria.joined()),
		}))
	}
	return lines
}

// texts are several of one kind, each once.
type texts []string

func (t *texts) add(text string) {
	if text != "" && !slices.Contains(*t, text) {
		*t = append(*t, text)
	}
}

func (t texts) joined() string { return strings.Join(t, "; ") }

func textMember(name, s string) geojson.Member {
	return geojson.Member{Key: name, Raw: out.Text(s).JSON}
}

// feetMember is a length in metres as a property in feet.
func feetMember(name string, metres float64) geojson.Member {
	return geojson.Member{Key: name, Raw: out.Number(metres/job.Foot, 2).JSON}
}
