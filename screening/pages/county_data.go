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

	ID       []string   `json:"id"`
	Others   []int      `json:"others"`
	Water    []int      `json:"water"`
	Place    []int      `json:"place"` // longitude and latitude in 1e-5 degrees
	Values   [][]string `json:"values"`
	Feet     []int      `json:"feet"` // of shore
	Joint    []int      `json:"joint"`
	Class    string     `json:"class"`
	Sure     string     `json:"sure"`
	Long     []int      `json:"long"` // feet, of the structure
	Blocker  []int      `json:"blocker"`
	Share    []int      `json:"share"` // percent
	Riparian []int      `json:"riparian"`
	Note     []int      `json:"note"`
	Error    []int      `json:"error"`

	class, sure strings.Builder
	*words
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
		words: newWords(), Carried: allVisible(carried), Values: make([][]string, len(carried)), By: make([]answerColumn, len(authorities)),
		ID: []string{}, Others: []int{}, Water: []int{}, Place: []int{}, Feet: []int{}, Joint: []int{}, Long: []int{}, Blocker: []int{},
		Share: []int{}, Riparian: []int{}, Note: []int{}, Error: []int{},
	}
	for i := range c.Values {
		c.Values[i] = []string{}
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
	for n, p := range s.Parcels {
		var others []string
		for k := range s.Parcels {
			if k != n {
				others = append(others, written.Visible(s.Parcels[k].ID))
			}
		}
		c.ID, c.Others, c.Water = append(c.ID, written.Distinct(p.ID)), append(c.Others, c.of(strings.Join(others, "; "))), append(c.Water, c.of(written.Visible(s.Water)))
		c.Place = append(c.Place, int(math.Round(s.Lon*1e5)), int(math.Round(s.Lat*1e5)))
		for i := range c.Values {
			c.Values[i] = append(c.Values[i], written.Visible(p.Carried[i]))
		}
		j := &s.Best.Joint
		c.Feet, c.Joint, c.Long = append(c.Feet, rounded(feet)), append(c.Joint, c.of(j.Says)), append(c.Long, rounded(j.Feet))
		c.Blocker, c.Share = append(c.Blocker, c.of(written.Visible(j.Blocker))), append(c.Share, rounded(j.Share))
		c.Riparian, c.Note, c.Error = append(c.Riparian, c.of(written.Visible(s.Riparian))), append(c.Note, c.of(written.Visible(p.Note))), append(c.Error, c.of(written.Visible(s.Error)))
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
	for i := range c.By {
		by := &c.By[i]
		by.Path, by.Sure, by.Could = by.path.String(), by.sure.String(), by.could.String()
	}
}
