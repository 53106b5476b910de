package pages

import (
	"fmt"
	"html/template"
	"io"
	"maps"
	"slices"
	"strings"

	written "waterward/geo/text"
)

const (
	// mostMapped is how many water bodies have a map of their own, mostTabled how many more a
	// row: a table of thousands takes a browser seconds.
	mostMapped, mostTabled = 24, 200
	// mostListed is how many parcels a page can hold for its table: with more it takes long to
	// open.
	mostListed = 100000
	// mostWants and mostCauses are how many lines the lists of reasons have.
	mostWants, mostCauses = 12, 10
	// mostSaid is how many ways of saying an outcome are told of a class.
	mostSaid = 4
)

// CountyPage gathers a shore, parcel by parcel, and writes its page.
type CountyPage struct {
	authorities []Authority
	carried     []string
	glance      *glance
	mapped      mapped
	columns     *parcelColumns // nil if there are too many parcels
}

// NewCountyPage starts the page of some authorities, and of parcels that carry some properties.
func NewCountyPage(authorities []Authority, carried []string) *CountyPage {
	seen := make([]Authority, len(authorities))
	for i, a := range authorities {
		seen[i] = Authority{Name: written.Visible(a.Name), Title: written.Visible(a.Title)}
		for _, p := range a.Paths {
			seen[i].Paths = append(seen[i].Paths, Path{ID: p.ID, Title: written.Visible(p.Title)})
		}
	}
	return &CountyPage{authorities: seen, carried: carried, glance: newGlance(seen), columns: newParcelColumns(seen, carried)}
}

// Add takes what a parcel, or nobody, has of the shore.
func (p *CountyPage) Add(s Shore) {
	p.glance.add(&s)
	for i := range s.Fronts {
		p.mapped.add(&s.Fronts[i], p.glance.classOf(&s, &s.Fronts[i].Outcome))
	}
	if p.glance.parcels > mostListed {
		p.columns = nil
	}
	if p.columns != nil {
		p.columns.add(&s, p.glance.classOf(&s, &s.Best))
	}
}

// countyData is what the template is given.
type countyData struct {
	County
	Authorities []Authority
	Parcels     int
	Miles       string
	Lead        lead
	Tables      []totalTable
	Overview    figure
	Maps        []figure
	Waters      []waterRow // those without a map
	Beyond      *waterRow  // those without a row, together
	All         waterRow
	Taken       []reason
	Chief       []reason
	Wants       []reason // by kind
	WantsThere  []string // and water body
	Wanting     string
	Twice       string
	Columns     *parcelColumns
	Names       []string // of the water bodies, to choose from
	Legend      []legend
}

// lead is the answer in figures.
type lead struct {
	Parcels, Unknown          int
	Miles, Firm, UnknownMiles string
}

// legend is one way fronts are drawn.
type legend struct {
	Strokes []string
	Title   string
}

// Write writes the page.
func (p *CountyPage) Write(w io.Writer, about County) error {
	about = about.visible()
	p.mapped.settle()
	g, d := p.glance, digitsFor(p.glance.miles)
	data := countyData{County: about, Authorities: p.authorities, Parcels: g.parcels, Miles: d.text(d.units(g.miles)), Columns: p.columns}
	data.Tables = g.tables(d)
	data.Lead = lead{
		Parcels: g.joint[every].parcels, Unknown: g.joint[notKnown].parcels,
		Miles: data.Tables[0].row(every).Miles, Firm: data.Tables[0].row(every).Sure[Firm], UnknownMiles: data.Tables[0].row(notKnown).Miles,
	}
	data.Taken, data.Chief = g.takers(d), g.chiefs(d)
	data.Wants, data.WantsThere = g.settling(d)
	data.Wanting = d.text(d.units(g.wanting))
	if twice := d.units(p.mapped.twice()); twice > 0 {
		data.Twice = d.text(twice)
	}
	p.waters(&data, d)
	for k := class(0); k < classes; k++ {
		if s := g.joint[k]; s.miles > 0 {
			data.Legend = append(data.Legend, legend{k.strokes(), k.title()})
		}
	}
	if p.columns != nil {
		p.columns.finish()
	}
	functions := template.FuncMap{"plural": plural, "grouped": grouped}
	return write(w, "county", functions, data)
}

// visible is what stands round the parcels, with its hidden characters written out.
func (c County) visible() County {
	around := Triage{Title: c.Title, Warnings: c.Warnings, Sources: c.Sources}.visible()
	c.Title, c.Warnings, c.Sources = around.Title, around.Warnings, around.Sources
	c.Structure, c.Chosen, c.LeftOut = written.Visible(c.Structure), written.Visible(c.Chosen), allVisible(c.LeftOut)
	return c
}

// grouped is a whole number with its thousands apart.
func grouped(n int) string {
	text := fmt.Sprint(n)
	for at := len(text) - 3; at > 0; at -= 3 {
		text = text[:at] + "," + text[at:]
	}
	return text
}

// totalTable are the outcomes by one authority, or by all together.
type totalTable struct {
	Name, Title string
	Rows        []totalRow
	Sum         totalRow
}

// totalRow is how much of the shore comes out so.
type totalRow struct {
	Mark, Title, Says     string
	Class                 int // of the joint outcome, for the table of parcels; -1: it is none
	Parcels, Miles, Share string
	Sure                  [3]string // miles by certainty; empty where there is none
	Bar                   template.HTML
}

// row is that of a class, as it stands in the table.
func (t *totalTable) row(of class) totalRow {
	return t.Rows[slices.IndexFunc(t.Rows, func(r totalRow) bool { return r.Class == int(of) })]
}

// tables are those of all authorities together and of each.
func (g *glance) tables(d digits) []totalTable {
	all := totalTable{Title: "Every authority together"}
	var sums []*sum
	for k := class(0); k < classes; k++ {
		s := &g.joint[k]
		if k != every && k != notKnown && s.miles == 0 && s.parcels == 0 {
			continue
		}
		sums = append(sums, s)
		all.Rows = append(all.Rows, totalRow{Mark: k.mark(), Title: k.title(), Class: int(k), Says: g.saying(k, d)})
	}
	made := []totalTable{g.filled(all, sums, d)}
	for i, a := range g.authorities {
		t := totalTable{Name: a.Name, Title: a.Title}
		sums = nil
		take := func(at int, mark, title string) {
			if s := g.by[i][at]; s != nil || at == pathNotKnown {
				if s == nil {
					s = &sum{}
				}
				sums = append(sums, s)
				t.Rows = append(t.Rows, totalRow{Mark: mark, Title: title, Class: -1})
			}
		}
		of := g.rank(i)
		for n, p := range a.Paths {
			take(n, class(of(n)).mark(), p.Title)
		}
		take(pathNotKnown, notKnown.mark(), notKnown.title())
		take(pathNoResult, noResult.mark(), noResult.title())
		take(pathNobodys, nobodys.mark(), nobodys.title())
		take(pathWhoseUnknown, whoseUnknown.mark(), whoseUnknown.title())
		made = append(made, g.filled(t, sums, d))
	}
	return made
}

// rank is how demanding each path of an authority is beside those that come out.
func (g *glance) rank(authority int) func(path int) int {
	var taken []int
	for _, n := range slices.Sorted(maps.Keys(g.by[authority])) {
		if n >= 0 {
			taken = append(taken, n)
		}
	}
	return func(path int) int { return rankAmong(taken, path) }
}

// filled is a table with its figures.
func (g *glance) filled(t totalTable, sums []*sum, d digits) totalTable {
	whole := d.units(g.miles)
	miles := make([]float64, len(sums))
	for i, s := range sums {
		miles[i] = s.miles
	}
	var sure [3]int
	for i, units := range d.parts(whole, miles) {
		r, s := &t.Rows[i], sums[i]
		r.Parcels, r.Miles, r.Share = grouped(s.parcels), d.text(units), tenth(s.miles, g.miles)
		by := [3]int{units}
		if s.sure != [3]float64{} {
			copy(by[:], d.parts(units, s.sure[:]))
			for c, n := range by {
				sure[c] += n
				r.Sure[c] = d.text(n)
			}
		}
		if units > 0 {
			r.Bar = bar(by, whole)
		}
	}
	t.Sum = totalRow{Title: "all shore", Parcels: grouped(g.parcels), Miles: d.text(whole), Share: tenth(g.miles, g.miles)}
	for c, n := range sure {
		t.Sum.Sure[c] = d.text(n)
	}
	return t
}

// saying is what is said of the shore of a class, if not all the same, with its miles.
func (g *glance) saying(k class, d digits) string {
	texts := mostMiles(g.says[k])
	if len(texts) < 2 && (k == every || k == notKnown || k == noneOf) {
		return ""
	}
	var parts []string
	rest := 0.0
	for i, text := range texts {
		if i < mostSaid {
			parts = append(parts, written.Visible(text)+" "+d.text(d.units(g.says[k][text]))+" mi")
			continue
		}
		rest += g.says[k][text]
	}
	if rest > 0 {
		parts = append(parts, "others "+d.text(d.units(rest))+" mi")
	}
	return strings.Join(parts, " \u00b7 ")
}
