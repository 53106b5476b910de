package pages

import (
	"slices"
	"strconv"
)

// columns are the rows of a triage page as its script reads them: a list for each column,
// every text but ids and places by its number in one list of words. A thousand proposals are
// about a megabyte so.
type columns struct {
	Words       []string          `json:"words"` // the first is empty
	Authorities []authorityColumn `json:"authorities"`
	// Rules are path, says, limit, evidence, citation, all words, and 1 if of the path taken.
	Rules [][6]int `json:"rules"`

	ID       []string `json:"id"`
	Place    []string `json:"place"`
	Kind     []int    `json:"kind"`
	Parcels  []int    `json:"parcels"`
	File     []int    `json:"file"`
	Aside    []int    `json:"aside"`
	Error    []int    `json:"error"`
	Requests [][]int  `json:"requests"` // text, authorities, what would be decided then, and so on
	Notices  [][]int  `json:"notices"`
	Data     [][]int  `json:"data"`
	Changes  [][]int  `json:"changes"`
	// Sheets are the files with sheets, by row, of those that have one.
	Sheets map[int]string `json:"sheets"`

	word map[string]int
	rule map[[6]int]int
}

// authorityColumn is what one authority decides, by row.
type authorityColumn struct {
	Name  string      `json:"name"`
	Title string      `json:"title"`
	Paths [][2]string `json:"paths"` // id, title
	Ranks []int       `json:"ranks"` // of the paths, see tallies.ranks
	Path  []int       `json:"path"`  // -1: no result
	Sure  []int       `json:"sure"`
	Rests []int       `json:"rests"`
	Could []int       `json:"could"`
	Open  [][]int     `json:"open"`
	Also  [][]int     `json:"also"`  // conditions that nothing here has checked
	Rules [][]int     `json:"rules"` // rule, value, tolerance, result, reason, change, and so on
}

func newColumns(authorities []Authority) *columns {
	c := &columns{Words: []string{""}, word: map[string]int{"": 0}, rule: map[[6]int]int{}, Rules: [][6]int{},
		ID: []string{}, Place: []string{}, Kind: []int{}, Parcels: []int{}, File: []int{}, Aside: []int{}, Error: []int{},
		Requests: [][]int{}, Notices: [][]int{}, Data: [][]int{}, Changes: [][]int{}, Authorities: []authorityColumn{}, Sheets: map[int]string{}}
	for _, a := range authorities {
		column := authorityColumn{Name: a.Name, Title: a.Title, Path: []int{}, Sure: []int{}, Rests: []int{}, Could: []int{}, Open: [][]int{}, Also: [][]int{}, Rules: [][]int{}}
		for _, p := range a.Paths {
			column.Paths = append(column.Paths, [2]string{p.ID, p.Title})
		}
		c.Authorities = append(c.Authorities, column)
	}
	return c
}

// of is a text as its number.
func (c *columns) of(text string) int {
	at, known := c.word[text]
	if !known {
		at = len(c.Words)
		c.word[text], c.Words = at, append(c.Words, text)
	}
	return at
}

func (c *columns) all(texts []string) []int {
	made := []int{}
	for _, text := range texts {
		made = append(made, c.of(text))
	}
	return made
}

// add takes a row.
func (c *columns) add(r *Row) {
	if r.Sheet != "" {
		c.Sheets[len(c.ID)] = r.Sheet
	}
	c.ID, c.Place = append(c.ID, r.ID), append(c.Place, r.Place)
	c.Kind, c.Parcels, c.File = append(c.Kind, c.of(r.Kind)), append(c.Parcels, c.of(r.Parcels)), append(c.File, c.of(r.File))
	c.Aside, c.Error = append(c.Aside, c.of(r.Aside)), append(c.Error, c.of(r.Error))
	c.Notices, c.Data = append(c.Notices, c.all(r.Notices)), append(c.Data, c.all(r.Data))
	c.Changes = append(c.Changes, c.all(r.Changes))
	requests := []int{}
	for _, q := range r.Requests {
		requests = append(requests, c.of(q.Text), c.of(q.Authorities), c.of(q.Then))
	}
	c.Requests = append(c.Requests, requests)
	for i := range c.Authorities {
		a := &c.Authorities[i]
		if !r.Decided() {
			a.Path, a.Sure, a.Rests, a.Could = append(a.Path, -1), append(a.Sure, -1), append(a.Rests, 0), append(a.Could, 0)
			a.Open, a.Also, a.Rules = append(a.Open, []int{}), append(a.Also, []int{}), append(a.Rules, []int{})
			continue
		}
		d := &r.Decisions[i]
		a.Path, a.Sure = append(a.Path, d.Path), append(a.Sure, int(d.Certainty))
		a.Rests, a.Could = append(a.Rests, c.of(d.RestsOn)), append(a.Could, c.of(d.CouldBe))
		a.Open, a.Also, a.Rules = append(a.Open, c.all(d.Open)), append(a.Also, c.all(d.Unchecked)), append(a.Rules, c.rules(d.Rules))
	}
}

func (c *columns) rules(all []Rule) []int {
	made := []int{}
	for _, r := range all {
		key := [6]int{c.of(r.Path), c.of(r.Says), c.of(r.Limit), c.of(r.Evidence), c.of(r.Cite), 0}
		if r.On {
			key[5] = 1
		}
		at, known := c.rule[key]
		if !known {
			at = len(c.Rules)
			c.rule[key], c.Rules = at, append(c.Rules, key)
		}
		made = append(made, at, c.of(r.Value), c.of(r.Tolerance), c.of(r.Result), c.of(r.Reason), c.of(r.Change))
	}
	return made
}

// tallies are what the page says first: how many proposals came out on each path, how
// surely, and what is asked and what stands in the way most often.
type tallies struct {
	Rows, Measured, Unusable, Aside, Asking, Requests, Changed int

	paths    map[[2]int]*PathCount
	asks     map[string][]string
	blockers map[string][]string
}

// PathCount is how many proposals came out on a path of an authority.
type PathCount struct {
	Title  string
	Number int // of the path
	All    int
	By     [3]int // by certainty
}

// add counts a row.
func (t *tallies) add(authorities []Authority, r *Row) {
	t.Rows++
	if len(r.Changes) > 0 {
		t.Changed++
	}
	switch {
	case r.Aside != "":
		t.Aside++
		return
	case !r.Decided():
		t.Unusable++
		return
	}
	t.Measured++
	if len(r.Requests) > 0 {
		t.Asking++
	}
	t.Requests += len(r.Requests)
	for _, q := range r.Requests {
		t.asks[q.Text] = append(t.asks[q.Text], r.ID)
	}
	blocked := map[string]bool{}
	for i, d := range r.Decisions {
		key := [2]int{i, d.Path}
		if t.paths[key] == nil {
			t.paths[key] = &PathCount{Title: authorities[i].Paths[d.Path].Title, Number: d.Path}
		}
		t.paths[key].All++
		t.paths[key].By[d.Certainty]++
		for _, rule := range d.Rules {
			if !rule.On && rule.Result == "exceeds" {
				blocked[rule.Says] = true
			}
		}
	}
	for says := range blocked {
		t.blockers[says] = append(t.blockers[says], r.ID)
	}
}

// steps are how many shades paths are told apart by, beside their titles.
const steps = 4

// ranks are how demanding each path of an authority is beside those that came out, from 0
// to steps - 1: the least demanding that any proposal is on is 0, the most demanding the
// last, if there are several.
func (t *tallies) ranks(authority, paths int) []int {
	taken := []int{}
	for _, p := range t.pathsOf(authority) {
		taken = append(taken, p.Number)
	}
	made := make([]int, paths)
	for i := range made {
		made[i] = rankAmong(taken, i)
	}
	return made
}

// rankAmong is how demanding a path is beside some that came out, from 0 to steps - 1.
func rankAmong(taken []int, path int) int {
	below := 0
	for _, n := range taken {
		if n < path {
			below++
		}
	}
	if len(taken) < 2 {
		return 0
	}
	return min(steps-1, below*(steps-1)/(len(taken)-1))
}

// pathsOf are the counts of an authority, the least demanding path first.
func (t *tallies) pathsOf(authority int) []*PathCount {
	var made []*PathCount
	for key, count := range t.paths {
		if key[0] == authority {
			made = append(made, count)
		}
	}
	slices.SortFunc(made, func(a, b *PathCount) int { return a.Number - b.Number })
	return made
}

// Often is a text with the proposals it is said of.
type Often struct {
	Text string
	IDs  []string
	More int // beyond those named
}

// Count is of how many proposals it is said.
func (o Often) Count() int { return len(o.IDs) + o.More }

const (
	mostOften = 8  // texts told
	mostIDs   = 12 // proposals named of each
)

// often are the texts said of most proposals.
func often(of map[string][]string) []Often {
	var made []Often
	for text, ids := range of {
		made = append(made, Often{text, ids[:min(len(ids), mostIDs)], max(0, len(ids)-mostIDs)})
	}
	slices.SortFunc(made, func(a, b Often) int {
		if n := b.Count() - a.Count(); n != 0 {
			return n
		}
		return slices.Compare([]string{a.Text}, []string{b.Text})
	})
	return made[:min(len(made), mostOften)]
}

// percent is a share of a whole for a drawing.
func percent(n, of int) string {
	if of == 0 {
		return "0"
	}
	return strconv.FormatFloat(100*float64(n)/float64(of), 'f', 2, 64)
}
