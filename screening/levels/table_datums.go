package levels

import (
	"fmt"
	"io"
	"time"
)

// DatumTable is the datums of a station or of a record, each above others.
type DatumTable struct {
	Of       string      `json:"of"`
	Epoch    string      `json:"epoch,omitempty"`
	Accepted string      `json:"accepted,omitempty"`
	Source   string      `json:"source,omitempty"`
	Record   *RecordFact `json:"record,omitempty"`
	Above    []Datum     `json:"-"`
	Rows     []DatumRow  `json:"datums"`
	Ranges   []DatumRow  `json:"ranges,omitempty"`
	Stated   *StatedIn   `json:"elevation,omitempty"`
	Mind     []string    `json:"mind"`
}

// RecordFact is what a table says of the record behind it.
type RecordFact struct {
	Span     string   `json:"span"`
	Levels   int      `json:"levels"`
	Expected int      `json:"expected"`
	Coverage figure   `json:"coverage_pct"`
	Highs    int      `json:"high_waters,omitempty"`
	Lows     int      `json:"low_waters,omitempty"`
	Notes    []string `json:"notes,omitempty"`
}

// DatumRow is one level, or a difference of two.
type DatumRow struct {
	Name    string   `json:"name"`
	Heights []Height `json:"heights"`
	Note    string   `json:"note,omitempty"`
}

// StatedIn is a stated elevation in every datum.
type StatedIn struct {
	Stated string   `json:"stated"`
	In     []Height `json:"in"`
}

// DatumTable is the station's datums above those asked for, or above those
// that people count from; stated, if there is one, in all datums.
func (s *Station) DatumTable(above []Datum, stated *Mark) *DatumTable {
	if len(above) == 0 {
		above = s.countedFrom()
	}
	t := &DatumTable{Of: s.String(), Epoch: s.Epoch.String(), Accepted: s.Accepted, Source: s.Source, Above: above, Mind: []string{NeverLegal}}
	for _, d := range datums {
		row := DatumRow{Name: string(d)}
		for _, to := range above {
			h := s.heightAbove(0, d, to)
			if _, known := s.Datums[d]; !known { // not even above itself
				_, err := s.level(d)
				h = Height{Above: to, Feet: unknown, Metres: unknown, Unknown: err.Error()}
			}
			row.Heights = append(row.Heights, h)
		}
		t.Rows = append(t.Rows, row)
	}
	if stated != nil {
		t.Stated = &StatedIn{Stated: stated.String()}
		for _, e := range s.InAll(stated.Metres, stated.Datum) {
			t.Stated.In = append(t.Stated.In, heightOf(e))
		}
	}
	return t
}

// countedFrom is which of the datums people count from the station has; at
// least one.
func (s *Station) countedFrom() []Datum {
	var known []Datum
	for _, d := range []Datum{NAVD88, MLLW, STND} {
		if _, has := s.Datums[d]; has {
			known = append(known, d)
		}
	}
	for _, d := range datums {
		if _, has := s.Datums[d]; has && len(known) == 0 {
			known = append(known, d)
		}
	}
	return known
}

// DatumTable is the datums of the record itself.
func (s *Series) DatumTable(of string) (*DatumTable, error) {
	r, err := s.Reduce()
	if err != nil {
		return nil, err
	}
	facts := s.facts()
	facts.Highs, facts.Lows = r.Highs, r.Lows
	t := &DatumTable{Of: of, Source: "the record itself, first reduction", Record: facts, Above: []Datum{s.Datum}, Mind: []string{firstReduce, NeverLegal}}
	when := func(at time.Time) string { return at.Format("2006-01-02 15:04 UTC") }
	for _, l := range []struct {
		name   string
		metres float64
		note   string
	}{
		{"HWL", r.HWL, "highest high water, " + when(r.HWLAt)}, {"MHHW", r.MHHW, ""}, {"MHW", r.MHW, ""}, {"DTL", r.DTL, ""}, {"MTL", r.MTL, ""},
		{"MSL", r.MSL, ""}, {"MLW", r.MLW, ""}, {"MLLW", r.MLLW, ""}, {"LWL", r.LWL, "lowest low water, " + when(r.LWLAt)},
	} {
		t.Rows = append(t.Rows, DatumRow{l.name, []Height{height(l.metres, s.Datum)}, l.note})
	}
	for _, l := range []struct {
		name   string
		metres float64
		note   string
	}{
		{"MN", r.MN, "mean range, MHW - MLW"}, {"GT", r.GT, "great diurnal range, MHHW - MLLW"},
		{"DHQ", r.DHQ, "MHHW - MHW"}, {"DLQ", r.DLQ, "MLW - MLLW"},
	} {
		t.Ranges = append(t.Ranges, DatumRow{l.name, []Height{height(l.metres, "")}, l.note})
	}
	return t, nil
}

func (s *Series) facts() *RecordFact {
	return &RecordFact{Span: s.Span(), Levels: s.valid(), Expected: len(s.Levels), Coverage: figure(100 * s.coverage()), Notes: s.Notes}
}

func (f *RecordFact) write(p *page) {
	p.fact("record", f.Span)
	p.fact("coverage", fmt.Sprintf("%.1f %%, %d of %d levels", float64(f.Coverage), f.Levels, f.Expected))
	if f.Highs > 0 {
		p.fact("tides", fmt.Sprintf("%d high and %d low waters", f.Highs, f.Lows))
	}
	p.facts("note", f.Notes)
}

// Write writes the table for a person.
func (t *DatumTable) Write(w io.Writer) error {
	p := &page{w: w}
	p.line("Datums of %s", t.Of)
	p.fact("epoch", t.Epoch)
	p.fact("accepted", t.Accepted)
	p.fact("source", t.Source)
	if t.Record != nil {
		t.Record.write(p)
	}
	header := []string{"DATUM"}
	for _, d := range t.Above {
		header = append(header, "ft above "+string(d), "m above "+string(d))
	}
	reasons := writeRows(p, header, t.Rows)
	if len(t.Ranges) > 0 {
		writeRows(p, []string{"RANGE", "ft", "m"}, t.Ranges)
	}
	if t.Stated != nil {
		rows := [][]string{{t.Stated.Stated + " is", "ft", "m"}}
		for _, h := range t.Stated.In {
			rows = append(rows, []string{"above " + string(h.Above), h.feet(), h.metres()})
			reasons = append(reasons, h.Unknown)
		}
		p.table(rows...)
	}
	p.line("")
	p.facts("unknown", reasons)
	p.facts("mind", t.Mind)
	return p.err
}

// writeRows writes rows and returns why some of their heights are unknown.
func writeRows(p *page, header []string, of []DatumRow) (reasons []string) {
	rows := [][]string{header}
	for _, row := range of {
		cells := []string{row.Name}
		for _, h := range row.Heights {
			cells = append(cells, h.feet(), h.metres())
			reasons = append(reasons, h.Unknown)
		}
		if row.Note != "" {
			cells = append(cells, row.Note)
		}
		rows = append(rows, cells)
	}
	p.table(rows...)
	return reasons
}
