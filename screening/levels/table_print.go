package levels

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"time"
)

// basis is how it was found and from what, in words.
func (t *ExposureTable) basis() string {
	switch {
	case t.Record != nil:
		return fmt.Sprintf("%s, %s, coverage %.1f %%", t.Way, t.Record.Span, float64(t.Record.Coverage))
	case t.Years != "":
		return fmt.Sprintf("%s, years %s", t.Way, t.Years)
	}
	return fmt.Sprintf("%s, tide %s, good to %g points", t.Way, t.Class, float64(t.Points))
}

// says is the crest in words.
func (t *ExposureTable) says(c *CrestRow) string {
	at := c.Stated
	if c.in != t.Datum && !math.IsNaN(float64(c.Feet)) {
		at += fmt.Sprintf(", which is %s ft (%s m) above %s", c.feet(), c.metres(), c.Above)
	}
	if c.Unknown != "" {
		return at + ": unknown, " + c.Unknown
	}
	about := ""
	if t.Points > 0 {
		about = "about "
	}
	return fmt.Sprintf("%s: exposed %s%s %% of the time, %s", at, about, decimal(float64(c.Percent), 1), c.Band)
}

// Write writes the table for a person.
func (t *ExposureTable) Write(w io.Writer) error {
	p := &page{w: w}
	p.line("Time exposed to air at %s", t.Of)
	p.fact("way", string(t.Way))
	if t.Class != "" {
		p.fact("tide", fmt.Sprintf("%s; good to %g points", t.Class, float64(t.Points)))
	}
	p.fact("years", t.Years)
	if t.Record != nil {
		t.Record.write(p)
	}
	p.fact("datum", string(t.Datum))
	p.fact("epoch", t.Epoch)
	p.fact("source", t.Source)
	p.fact("datums", t.DatumsOf)
	if t.Crest != nil {
		p.fact("crest", t.says(t.Crest))
	}
	if t.Living != nil {
		p.fact("live oysters", t.Living.String())
	}
	columns := []string{"EXPOSED %", "ft above " + string(t.Datum), "m above " + string(t.Datum), "BAND"}
	var reasons []string
	targets, rows := [][]string{columns[:3]}, [][]string{columns}
	for _, r := range t.Targets {
		targets = append(targets, []string{decimal(float64(r.Percent), 0), r.feet(), r.metres()})
		reasons = append(reasons, r.Unknown)
	}
	for _, r := range t.Rows {
		rows = append(rows, []string{decimal(float64(r.Percent), 1), r.feet(), r.metres(), string(r.Band)})
	}
	p.table(targets...)
	p.table(rows...)
	p.line("")
	p.facts("unknown", reasons)
	p.facts("mind", t.Mind)
	return p.err
}

// WriteCSV writes the rows by elevation.
func (t *ExposureTable) WriteCSV(w io.Writer) error {
	table := csv.NewWriter(w)
	table.Write([]string{"elevation_ft", "elevation_m", "datum", "exposed_pct", "band", "way"})
	for _, r := range t.Rows {
		table.Write([]string{decimal(float64(r.Feet), 3), decimal(float64(r.Metres), 4), string(t.Datum), decimal(float64(r.Percent), 2), string(r.Band), string(t.Way)})
	}
	table.Flush()
	return table.Error()
}

// WriteCSV writes a series as a table that says its own unit, datum and zone.
func (s *Series) WriteCSV(w io.Writer, unit Unit) error {
	layout := "2006-01-02T15:04Z"
	if s.Step%time.Minute != 0 || s.Start.Second() != 0 {
		layout = time.RFC3339
	}
	table := csv.NewWriter(w)
	table.Write([]string{"time", "level", "unit", "datum"})
	for i, v := range s.Levels {
		row := []string{s.Start.Add(time.Duration(i) * s.Step).Format(layout), decimal(unit.from(v), 3), string(unit), string(s.Datum)}
		if err := table.Write(row); err != nil { // there may be millions to come
			return err
		}
	}
	table.Flush()
	return table.Error()
}
