package screening

import (
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/geojson"
	"waterward/screening/job"
	"waterward/screening/out"
)

// outputs are the files of a screening.
type outputs struct {
	*out.Sinks[*result]
	proposals         *out.Collection[*result] // whose members outside its features are the input's
	summary, measures []column
}

// newOutputs creates the files.
func (s *run) newOutputs(to out.Outputs) (*outputs, error) {
	opening, every := s.books.Shown()
	areas := s.layers.Areas
	added := featureColumns(s.books.Current, areas, opening, every)
	system := s.roster.intake.shared()
	o := &outputs{summary: summaryColumns(s.books.Current), measures: measuresColumns(areas, opening, every)}
	o.proposals = &out.Collection[*result]{Name: "proposals.geojson", Of: func(r *result) [][]byte {
		f := r.p.Of.Feature
		if system == nil { // one collection can name one only
			f = f.InDegrees()
		}
		var feature []byte
		feature, r.renamed = f.Annotated(r.properties(added))
		return [][]byte{feature}
	}}
	var drawn []geojson.Member // ahead of what is drawn here, in degrees
	if system != nil {
		drawn = geojson.CRSMember(crs.DegreesOn(system.Datum))
	}
	if s.roster.intake.several() {
		o.proposals.Before = s.roster.intake.members(nil, true)
	}
	sinks := []out.Sink[*result]{
		o.proposals,
		&out.Collection[*result]{Name: "measured.geojson", Before: drawn, Of: (*result).measuredLines},
		&out.Collection[*result]{Name: "setbacks.geojson", Before: drawn, Of: (*result).setbackLines},
		tableOf("summary.csv", o.summary, false),
		tableOf("measures.csv", o.measures, true),
		&out.Table[*result]{Name: "requests.csv", Header: requestsHeader, Of: (*result).requestRows},
		&out.Table[*result]{Name: "criteria.csv", Header: criteriaHeader, Of: func(r *result) [][]string { return r.criteria(s.unverified) }},
		s.newTriage().sink(s.about),
	}
	if s.since != nil {
		sinks = append(sinks, newChangesTable(s))
	}
	if s.options.Field {
		sinks = append(sinks, s.field.sinks()...)
	}
	var err error
	o.Sinks, err = out.Open(to, sinks...)
	return o, err
}

// tableOf is a table of a row a proposal.
func tableOf(name string, columns []column, filled bool) *out.Table[*result] {
	header := make([]string, len(columns))
	for i, c := range columns {
		header[i] = c.name
	}
	return &out.Table[*result]{Name: name, Header: header, Filled: filled, Of: func(r *result) [][]string { return [][]string{r.row(columns)} }}
}

// measuredLines are the distances that were measured, a line each.
func (r *result) measuredLines() [][]byte {
	if r.site == nil {
		return nil
	}
	var lines [][]byte
	for _, d := range r.site.Drawn {
		signed := r.site.Signed(d)
		if signed == 0 {
			continue // touching: there is no line between the two points
		}
		lines = append(lines, r.line([]orb.Point{d.From, d.To}, d.Measure, signed, d.Layer,
			geojson.Member{Key: "feature", Raw: out.Text(d.Feature).JSON}))
	}
	return lines
}

// setbackLines are the limit lines near the proposal.
func (r *result) setbackLines() [][]byte {
	var lines [][]byte
	for _, l := range r.limits {
		lines = append(lines, r.line(l.Line, l.Measure, l.Distance, l.Layer,
			geojson.Member{Key: "criteria", Raw: out.Text(strings.Join(l.Criteria, "; ")).JSON}))
	}
	return lines
}

// line is a line beside the proposal that stands for a distance of a measure, negative landward or across.
func (r *result) line(line []orb.Point, measure string, distance float64, layer string, last geojson.Member) []byte {
	return out.LineFeature(r.site.Footprint.Plane, line, []geojson.Member{
		{Key: "id", Raw: out.Text(r.p.ID).JSON},
		{Key: "measure", Raw: out.Text(measure).JSON},
		{Key: "distance_ft", Raw: out.Number(distance/job.Foot, 2).JSON},
		{Key: "layer", Raw: out.Text(layer).JSON},
		last,
	})
}
