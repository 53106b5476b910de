package screening

import (
	"waterward/geo/crs"
	"waterward/geo/geojson"
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
	page := s.newTriage()
	sinks := []out.Sink[*result]{
		o.proposals,
		&out.Collection[*result]{Name: "measured.geojson", Before: drawn, Of: func(r *result) [][]byte { return r.measuredLines(opening, s.opening) }},
		&out.Collection[*result]{Name: "setbacks.geojson", Before: drawn, Of: (*result).setbackLines},
		tableOf("summary.csv", o.summary, false),
		tableOf("measures.csv", o.measures, true),
		&out.Table[*result]{Name: "requests.csv", Header: requestsHeader, Of: (*result).requestRows},
		&out.Table[*result]{Name: "criteria.csv", Header: criteriaHeader, Of: func(r *result) [][]string { return r.criteria(s.unverified) }},
	}
	if s.options.Sheets.any() {
		sinks = append(sinks, s.sheets(page)) // before the page, which names them
	}
	sinks = append(sinks, page.sink(s.about))
	if a := newAlternatives(s, o.measures); a != nil {
		s.report.Compared = len(a.compared)
		sinks = append(sinks, a.sinks()...)
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
