package pages

import (
	"math"
	"strings"

	written "waterward/geo/text"
)

// parcelColumns are the parcels of a county page as its script reads them: a list for each
// column, texts by their number in one list of words, and what has few values as a letter a
// row.
type parcelColumns struct {
	Words   []string       `json:"words"` // the first is empty
	Classes []string       `json:"classes"`
	Carried []string       `json:"carried"` // names of what the parcels carry
	By      []answerColumn `json:"by"`

	ID       []string      `json:"id"`
	Group    map[int]int   `json:"group"` // by row, of those whose fronts others have too; the same for them
	Water    []int         `json:"water"`
	Place    []int         `json:"place"` // longitude and latitude in 1e-5 degrees, from those of the row before
	Values   []valueColumn `json:"values"`
	Feet     []int         `json:"feet"` // of shore
	Joint    []int         `json:"joint"`
	Class    string        `json:"class"`
	Sure     string        `json:"sure"`
	Long     []int         `json:"long"` // feet, of the structure
	Blocker  []int         `json:"blocker"`
	Share    []int         `json:"share"` // percent
	Riparian []int         `json:"riparian"`
	Note     map[int]int   `json:"note"` // by row, of those that have one
	Error    map[int]int   `json:"error"`

	class, sure strings.Builder
	lon, lat    int // of the last row
	groups      int
	*words
}

// valueColumn are the values of what the parcels carry: one by one, or by their number where
// they repeat.
type valueColumn struct {
	Each []string `json:"each,omitempty"`
	All  []string `json:"all,omitempty"`
	At   []int    `json:"at,omitempty"`
}

// packed are values that repeat by their number.
func (v valueColumn) packed() valueColumn {
	w := newWords()
	for _, text := range v.Each {
		w.of(text)
	}
	if len(w.all) > len(v.Each)/2 {
		return v
	}
	made := valueColumn{All: w.all}
	for _, text := range v.Each {
		made.At = append(made.At, w.of(text))
	}
	return made
}

// answerColumn is what one authority's rules come to, by row.
type answerColumn struct {
	Name    string   `json:"name"`
	Title   string   `json:"title"`
	Paths   []string `json:"paths"`
	Path    string   `json:"path"`
	Sure    string   `json:"sure"`
	Could   string   `json:"could"`
	Long    []int    `json:"long"`
	Blocker []int    `json:"blocker"`

	path, sure, could strings.Builder
}

// words are texts by their number.
type words struct {
	all []string
	at  map[string]int
}

func newWords() *words { return &words{all: []string{""}, at: map[string]int{"": 0}} }

func (w *words) of(text string) int {
	at, known := w.at[text]
	if !known {
		at = len(w.all)
		w.at[text], w.all = at, append(w.all, text)
	}
	return at
}

func newParcelColumns(authorities []Authority, carried []string) *parcelColumns {
	c := &parcelColumns{
		words: newWords(), Carried: allVisible(carried), Values: make([]valueColumn, len(carried)), By: make([]answerColumn, len(authorities)),
		ID: []string{}, Group: map[int]int{}, Water: []int{}, Place: []int{}, Feet: []int{}, Joint: []int{}, Long: []int{}, Blocker: []int{},
		Share: []int{}, Riparian: []int{}, Note: map[int]int{}, Error: map[int]int{},
	}
	for k := class(0); k < classes; k++ {
		c.Classes = append(c.Classes, k.title())
	}
	for i, a := range authorities {
		by := &c.By[i]
		by.Name, by.Title, by.Long, by.Blocker = a.Name, a.Title, []int{}, []int{}
		for _, p := range a.Paths {
			by.Paths = append(by.Paths, p.Title)
		}
	}
	return c
}

// letter is a small number as one letter of a column, from "a" up; -1 is "-". Of an authority
// with more paths than there are letters those beyond are told as the last.
func letter(n int) byte {
	if n < 0 {
		return '-'
	}
	return byte('a' + min(n, 25))
}

// add takes the parcels of a shore.
func (c *parcelColumns) add(s *Shore, of class) {
	feet := 0.0
	for i := range s.Fronts {
		feet += s.Fronts[i].Miles * feetInMile
	}
	if len(s.Parcels) > 1 {
		c.groups++
	}
	lon, lat := int(math.Round(s.Lon*1e5)), int(math.Round(s.Lat*1e5))
	for _, p := range s.Parcels {
		if len(s.Parcels) > 1 {
			c.Group[len(c.ID)] = c.groups
		}
		some := func(column map[int]int, text string) {
			if text != "" {
				column[len(c.ID)] = c.of(written.Visible(text))
			}
		}
		some(c.Note, p.Note)
		some(c.Error, s.Error)
		c.ID, c.Water = append(c.ID, written.Distinct(p.ID)), append(c.Water, c.of(written.Visible(s.Water)))
		c.Place = append(c.Place, lon-c.lon, lat-c.lat)
		c.lon, c.lat = lon, lat
		for i := range c.Values {
			c.Values[i].Each = append(c.Values[i].Each, written.Visible(p.Carried[i]))
		}
		j := &s.Best.Joint
		c.Feet, c.Joint, c.Long = append(c.Feet, rounded(feet)), append(c.Joint, c.of(j.Says)), append(c.Long, rounded(j.Feet))
		c.Blocker, c.Share = append(c.Blocker, c.of(written.Visible(j.Blocker))), append(c.Share, rounded(j.Share))
		c.Riparian = append(c.Riparian, c.of(written.Visible(s.Riparian)))
		c.class.WriteByte(letter(int(of)))
		c.sure.WriteByte(letter(sureOf(s.Best.Result, j.Certainty)))
		for i := range c.By {
			by := &c.By[i]
			a := Answer{Path: -1, CouldBe: -1}
			if s.Best.Result {
				a = s.Best.By[i]
			}
			by.path.WriteByte(letter(a.Path))
			by.sure.WriteByte(letter(sureOf(s.Best.Result, a.Certainty)))
			by.could.WriteByte(letter(a.CouldBe))
			by.Long, by.Blocker = append(by.Long, rounded(a.Feet)), append(by.Blocker, c.of(written.Visible(a.Blocker)))
		}
	}
}

func sureOf(result bool, c Certainty) int {
	if !result {
		return -1
	}
	return int(c)
}

// rounded is a number without decimals.
func rounded(v float64) int { return int(math.Round(v)) }

// finish makes the columns ready to be written.
func (c *parcelColumns) finish() {
	c.Words, c.Class, c.Sure = c.all, c.class.String(), c.sure.String()
	for i, v := range c.Values {
		c.Values[i] = v.packed()
	}
	for i := range c.By {
		by := &c.By[i]
		by.Path, by.Sure, by.Could = by.path.String(), by.sure.String(), by.could.String()
	}
}
