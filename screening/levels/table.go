package levels

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"text/tabwriter"
)

// What is said beside every table and chart.
const (
	NeverLegal  = "this is no legal line: mean high water for title or a permit is surveyed"
	lagoons     = "restricted lagoons, where season and wind outweigh the tide, need observations"
	pilings     = "live oysters on nearby pilings are the better guide (common practice, no source)"
	growth      = "oysters generally survive where exposed 10 to 55 % of the time and do best at 20 to 40 %: common practice, after reefs of North Carolina (Ridge et al. 2015, by its abstract)"
	OnlyTide    = "a prediction is the astronomical tide with its mean seasonal cycle: no weather, no rise of the sea since its constituents were derived"
	roughly     = "tidal datums alone give an approximation, which decides no limit"
	firstReduce = "these are plain means of the record (first reduction), not brought to an epoch by a control station; a record of less than 19 years stands for its own time"
	shortRecord = "the record is shorter than a year, so it knows only the weather and the season of its days"
)

// Mark is an elevation as somebody stated it.
type Mark struct {
	Text   string // "0.2 ft"
	Metres float64
	Datum  Datum
}

func (m Mark) String() string { return m.Text + " above " + string(m.Datum) }

// figure is a number as JSON gives it: to four decimals, null if unknown.
type figure float64

func (f figure) MarshalJSON() ([]byte, error) {
	if math.IsNaN(float64(f)) {
		return []byte("null"), nil
	}
	return []byte(decimal(float64(f), 4)), nil
}

// decimal is a number with so many decimals, and no sign before nothing;
// "unknown" if it is.
func decimal(v float64, places int) string {
	if math.IsNaN(v) {
		return "unknown"
	}
	text := strconv.FormatFloat(v, 'f', places, 64)
	if bare, negative := strings.CutPrefix(text, "-"); negative && strings.Trim(bare, "0.") == "" {
		return bare
	}
	return text
}

// Height is an elevation, or a difference of two, as tables give it.
type Height struct {
	Above   Datum  `json:"above,omitempty"`
	Feet    figure `json:"ft"`
	Metres  figure `json:"m"`
	Unknown string `json:"unknown,omitempty"` // why
}

var unknown = figure(math.NaN())

func height(metres float64, above Datum) Height {
	return Height{Above: above, Feet: figure(Feet.from(metres)), Metres: figure(metres)}
}

func heightOf(e Elevation) Height {
	h := height(e.Metres, e.Datum)
	h.Unknown = e.Unknown
	return h
}

// heightAbove is an elevation as it stands above another datum.
func (s *Station) heightAbove(metres float64, from, to Datum) Height {
	v, err := s.Convert(metres, from, to)
	h := height(v, to)
	if err != nil {
		h.Unknown = err.Error()
	}
	return h
}

func (h Height) feet() string   { return decimal(float64(h.Feet), 2) }
func (h Height) metres() string { return decimal(float64(h.Metres), 3) }

// page writes what a person reads: a title, facts, tables. An error of the
// writer is kept until the end.
type page struct {
	w   io.Writer
	err error
}

func (p *page) line(format string, values ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", values...)
	}
}

// fact writes a line, unless there is nothing to say.
func (p *page) fact(name, text string) {
	if text != "" {
		p.line("%-10s %s", name, text)
	}
}

// facts writes each of some once.
func (p *page) facts(name string, texts []string) {
	for i, text := range texts {
		if !slices.Contains(texts[:i], text) {
			p.fact(name, text)
		}
	}
}

// table writes rows below a header, after an empty line.
func (p *page) table(rows ...[]string) {
	p.line("")
	if p.err != nil {
		return
	}
	t := tabwriter.NewWriter(p.w, 0, 0, 3, ' ', 0)
	for _, row := range rows {
		fmt.Fprintln(t, strings.Join(row, "\t"))
	}
	p.err = t.Flush()
}
