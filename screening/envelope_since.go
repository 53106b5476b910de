package screening

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"waterward/screening/envelope"
	"waterward/screening/layers"
	"waterward/screening/out"
)

// earlierParcels is what an envelope of before has written of parcels.
type earlierParcels struct {
	*before
	rows map[string][]map[string]string // by id, in the order of the table
}

func readEarlierParcels(open func(name string) (io.ReadCloser, error)) (*earlierParcels, error) {
	b, err := openBefore(open, "envelope")
	if err != nil {
		return nil, err
	}
	e := &earlierParcels{b, map[string][]map[string]string{}}
	return e, b.table("parcels.csv", func(row map[string]string) {
		e.rows[row["parcel_id"]] = append(e.rows[row["parcel_id"]], row)
	}, "parcel_id")
}

// parcelChanges is changes.csv of an envelope: the parcels that come out otherwise than in an
// earlier run, with what of that which has changed may be why; then what has changed for all.
type parcelChanges struct {
	out.Table[*envelope.Result]
	run    *envelopeRun
	table  *parcelTable
	common []difference
	why    []string       // by book, which of these bear on it
	joint  string         // which of them on any book
	seen   map[string]int // rows of an id so far
}

func newParcelChanges(r *envelopeRun, table *parcelTable) *parcelChanges {
	c := &parcelChanges{run: r, table: table, seen: map[string]int{}}
	c.Table = out.Table[*envelope.Result]{Name: "changes.csv", Header: []string{"parcel_id", "what", "authority", "before", "after", "why"}}
	c.common = r.since.common(r.opened, r.books.Current, r.settings(), r.search.Settings.Structure)
	var any []string
	for i, b := range r.search.Books {
		asked := r.search.AskedOf(i)
		var why []string
		for _, d := range c.common {
			if c.bears(d.what, b.Name, asked) {
				why = append(why, d.text())
			}
		}
		c.why = append(c.why, strings.Join(why, "; "))
		for _, text := range why {
			if !slices.Contains(any, text) {
				any = append(any, text)
			}
		}
	}
	c.joint = strings.Join(any, "; ")
	table.also = c.compare
	return c
}

// bears reports whether a change of what all results rest on can be one of those by a book
// that is asked of some layers.
func (c *parcelChanges) bears(what, book string, asked map[string]bool) bool {
	if name, of := strings.CutPrefix(what, "book "); of {
		return name == book
	}
	file, _ := strings.CutPrefix(what, "file of ")
	layer, _, _ := strings.Cut(file, " ")
	layer = strings.TrimSuffix(layer, ".surveyed")
	mapped := slices.ContainsFunc(c.run.layers.All(), func(l *layers.Layer) bool { return l.Name == layer })
	return !mapped || asked[layer] || slices.Contains(ofEveryFront, layer)
}

// ofEveryFront are the layers that every answer rests on: where a front and its water lie.
var ofEveryFront = []string{"high_water", "parcels", "riparian", "shoreline"}

func (c *parcelChanges) Prepare(r *envelope.Result) func() {
	rows := c.table.rows(r)
	return func() {
		for _, row := range rows {
			c.compare(row)
		}
	}
}

// compare writes what is otherwise in a row of parcels.csv.
func (c *parcelChanges) compare(row []string) {
	now := make(map[string]string, len(row))
	for i, name := range c.table.Header {
		now[name] = row[i]
	}
	id := now["parcel_id"]
	c.seen[id]++
	all := c.run.since.rows[id]
	if c.seen[id] > len(all) {
		c.Write([]string{id, "parcel", "", "", "new", ""})
		c.run.report.Changed++
		return
	}
	was, changed := all[c.seen[id]-1], false
	front := ""
	if was["frontage_ft"] != now["frontage_ft"] {
		front = fmt.Sprintf("its front: was %s ft, now %s ft; ", cmp.Or(was["frontage_ft"], "0"), cmp.Or(now["frontage_ft"], "0"))
	}
	tell := func(what, authority, column, why string) {
		if was[column] != now[column] {
			changed = true
			c.Write([]string{id, what, authority, was[column], now[column], strings.TrimSuffix(front+why, "; ")})
		}
	}
	tell("path", jointly, "joint", c.joint)
	tell("certainty", jointly, "joint_certainty", c.joint)
	for i, b := range c.run.search.Books {
		tell("path", b.Authority, b.Authority+"_title", c.why[i])
		tell("certainty", b.Authority, b.Authority+"_certainty", c.why[i])
	}
	tell("without a result", "", "error", "")
	tell("note", "", "note", "")
	if changed {
		c.run.report.Changed++
	}
}

func (c *parcelChanges) Finish() {
	if c.run.chosen.all() {
		for _, id := range sortedKeys(c.run.since.rows, nil) {
			for range len(c.run.since.rows[id]) - c.seen[id] {
				c.Write([]string{id, "parcel", "", "there", "gone", ""})
				c.run.report.Changed++
			}
		}
	}
	for _, d := range c.common {
		c.Write(append(d.row(), ""))
	}
	c.Table.Finish()
}
