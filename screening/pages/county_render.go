package pages

import (
	"fmt"
	"html/template"
	"io"
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
	Wants       []string
	MoreWants   int
	Wanting     string
	Twice       string
	Columns     *parcelColumns
	Names       []string // of the water bodies, to choose from
	Legend      []legend
}

// lead is the answer in figures.
type lead struct {
	Parcels, Firm, Unknown int
	Miles, UnknownMiles    string
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
		Miles: data.Tables[0].miles(every), UnknownMiles: data.Tables[0].miles(notKnown),
	}
	data.Taken, data.Chief = g.takers(d), g.chiefs(d)
	data.Wants, data.MoreWants = g.settling(d)
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

// miles are those of a class, as they stand in the table.
func (t *totalTable) miles(of class) string {
	for _, r := range t.Rows {
		if r.Class == int(of) {
			return r.Miles
		}
	}
	return "0"
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
		for n, p := range a.Paths {
			take(n, class(min(n*(steps-1)/max(1, len(a.Paths)-1), steps-1)).mark(), p.Title)
		}
		take(pathNotKnown, notKnown.mark(), notKnown.title())
		take(pathNoResult, noResult.mark(), noResult.title())
		take(pathNobodys, nobodys.mark(), nobodys.title())
		take(pathWhoseUnknown, whoseUnknown.mark(), whoseUnknown.title())
		made = append(made, g.filled(t, sums, d))
	}
	return made
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
			parts = append(parts, written.Visible(text)+" "+d.text(d.units(g.says[k][text])))
			continue
		}
		rest += g.says[k][text]
	}
	if rest > 0 {
		parts = append(parts, "others "+d.text(d.units(rest)))
	}
	return strings.Join(parts, " \u00b7 ")
}

// reason is something that keeps structures off, with how much shore.
type reason struct {
	Says, Miles, Share string
	Bar                template.HTML
}

// reasons are the causes with the most miles, of those of all fronts with a result.
func (g *glance) reasonsOf(of map[string]float64, whole float64, d digits) []reason {
	var made []reason
	rest := 0.0
	for i, cause := range mostMiles(of) {
		if i >= mostCauses {
			rest += of[cause]
			continue
		}
		made = append(made, reason{
			Says: written.Visible(cause), Miles: d.text(d.units(of[cause])), Share: tenth(of[cause], whole),
			Bar: bar([3]int{d.units(of[cause])}, d.units(whole)),
		})
	}
	if rest > 0 {
		made = append(made, reason{Says: "others", Miles: d.text(d.units(rest)), Share: tenth(rest, whole)})
	}
	return made
}

func (g *glance) takers(d digits) []reason { return g.reasonsOf(g.taken, g.within, d) }

func (g *glance) chiefs(d digits) []reason { return g.reasonsOf(g.chief, g.within, d) }

// settling says what would settle the most miles, and how many sentences more there are.
func (g *glance) settling(d digits) ([]string, int) {
	var keys []wanted
	for key := range g.wants {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(a, b wanted) int {
		x, y := g.wants[a], g.wants[b]
		return cmpOr(y.alone-x.alone, y.together-x.together, strings.Compare(a.Says+a.water, b.Says+b.water))
	})
	var made []string
	for _, key := range keys[:min(len(keys), mostWants)] {
		s := g.wants[key]
		text := written.Visible(key.Says)
		if key.Of {
			text += " " + written.Visible(key.water)
		}
		switch {
		case s.together == 0:
			text += " would settle " + d.text(d.units(s.alone)) + " miles"
		case s.alone == 0:
			text += " would help to settle " + d.text(d.units(s.together)) + " miles, which want other things too"
		default:
			text += " would settle " + d.text(d.units(s.alone)) + " miles, and " + d.text(d.units(s.together)) + " more with other things"
		}
		made = append(made, text+".")
	}
	return made, len(keys) - len(made)
}

// cmpOr is the first comparison that is not even.
func cmpOr(first, second float64, third int) int {
	switch {
	case first != 0:
		return sign(first)
	case second != 0:
		return sign(second)
	}
	return third
}

func sign(v float64) int {
	if v < 0 {
		return -1
	}
	return 1
}
