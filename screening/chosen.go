package screening

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"

	"waterward/geo/text"
	"waterward/rules"
	"waterward/screening/front"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/out"
)

// Chosen says of which parcels an envelope is worked out and written: those that are in a
// list, if there is one, and of which a front meets the window, if there is one. The zero
// value is all of them. Who fronts what hangs on every parcel all the same.
type Chosen struct {
	Lists  []string   // names of files of parcels' ids
	Window *orb.Bound // degrees on the datum of the outputs
}

// ParcelsFrom is the role of a list of parcels among the inputs.
const ParcelsFrom = "parcels_from"

// mostListed is the largest list of parcels that is read, in bytes: the ids of more parcels
// than any county has.
const mostListed = 64 << 20

// choice is what is chosen, with its lists read.
type choice struct {
	Chosen
	listed []string        // ids, each once, in order
	has    map[string]bool // of them; nil if there is no list
	// fronted are the parcels that have a front, chosen or not, if not all are chosen.
	fronted map[int]bool
}

// sides are west, south, east and north of the window; nil if there is none.
func (c *choice) sides() []float64 {
	if c.Window == nil {
		return nil
	}
	return []float64{c.Window.Min[0], c.Window.Min[1], c.Window.Max[0], c.Window.Max[1]}
}

// newChoice reads the lists.
func newChoice(of Chosen, j *job.Job, files job.Files, log *inputs.Log) (*choice, error) {
	c := &choice{Chosen: of}
	for _, name := range of.Lists {
		ids, err := readList(name, parcelKeys(j.Layers.Parcels), files, log)
		if err != nil {
			return nil, err
		}
		if c.has == nil {
			c.has = map[string]bool{}
		}
		for _, id := range ids {
			if !c.has[id] {
				c.has[id], c.listed = true, append(c.listed, id)
			}
		}
	}
	return c, nil
}

// parcelKeys are the names that a column of parcels' ids may have.
func parcelKeys(parcels *job.LayerSource) []string {
	var names []string
	for _, name := range []string{parcels.Key, parcels.Properties["parcel_id"].From, "parcel_id"} {
		if name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// readList reads the parcels' ids of a table: of the column that has one of some names, or
// the only one.
func readList(name string, keys []string, files job.Files, log *inputs.Log) ([]string, error) {
	wrong := func(format string, args ...any) ([]string, error) {
		return nil, &job.Error{Message: fmt.Sprintf("--parcels-from %s: ", name) + fmt.Sprintf(format, args...)}
	}
	input, err := files.Open(name)
	if err != nil {
		return wrong("cannot be opened: %v", err)
	}
	defer input.Close()
	counted := log.Begin(ParcelsFrom, name, input)
	page, err := io.ReadAll(io.LimitReader(counted, mostListed+1))
	switch {
	case err != nil:
		return wrong("cannot be read: %v", err)
	case len(page) > mostListed:
		return wrong("larger than a list of parcels can be; write one id a line")
	}
	if fault := text.Fault(page); fault != "" {
		return wrong("%s", fault)
	}
	table := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(page, []byte("\ufeff"))))
	table.FieldsPerRecord, table.TrimLeadingSpace = -1, true
	rows, err := table.ReadAll()
	if err != nil {
		return wrong("%v; write one id a line, or a CSV file with a column %s", err, keys[0])
	}
	column, rows, fault := listColumn(rows, keys)
	if fault != "" {
		return wrong("%s", fault)
	}
	var ids []string
	for _, row := range rows {
		if column < len(row) {
			if id := strings.TrimSpace(row[column]); id != "" {
				ids = append(ids, id)
			}
		}
	}
	if len(ids) == 0 {
		return wrong("it names no parcel; write one id a line, or a CSV file with a column %s", keys[0])
	}
	counted.Record.Features = len(ids)
	return ids, counted.Finish()
}

// listColumn finds the column of the ids and the rows that hold them, or says what is wrong.
func listColumn(rows [][]string, keys []string) (column int, ids [][]string, wrong string) {
	if len(rows) == 0 {
		return 0, nil, ""
	}
	for _, key := range keys {
		for i, name := range rows[0] {
			if strings.EqualFold(strings.TrimSpace(name), key) {
				return i, rows[1:], ""
			}
		}
	}
	if !slices.ContainsFunc(rows, func(row []string) bool { return len(row) > 1 }) {
		return 0, rows, ""
	}
	wrong = "none of its columns is " + strings.Join(keys, " or ")
	if near := rules.Nearest(keys[0], rows[0]); near != "" {
		wrong += fmt.Sprintf(" (is it %s?)", near)
	}
	return 0, nil, wrong + "; name the column of the parcels' ids so. There are " + job.Few(rows[0])
}

// all reports whether every parcel is chosen.
func (c *choice) all() bool { return c.has == nil && c.Window == nil }

// named reports whether a parcel of an id is in the lists; without a list every one is.
func (c *choice) named(id string) bool {
	return c.has == nil || slices.ContainsFunc(spellings(id), func(as string) bool { return c.has[as] })
}

// spellings are an id as a list may have it: as the map does, and as tables of ours do.
func spellings(id string) []string { return []string{strings.TrimSpace(id), out.ID(id).Table} }

// meets reports whether a front meets the window.
func (c *choice) meets(f *front.Front) bool {
	line := orb.LineString(f.Points)
	return c.Window == nil || line.Bound().Intersects(*c.Window) && len(clip.LineString(*c.Window, line.Clone())) > 0
}

// fronts are those of the parcels chosen: all of a parcel of which one meets the window.
func (c *choice) fronts(all []front.Front, parcels *layers.Layer) ([]front.Front, error) {
	if c.all() {
		return all, nil
	}
	c.fronted = map[int]bool{}
	chosen, seen := map[int]bool{}, orb.Bound{Min: orb.Point{1, 1}, Max: orb.Point{-1, -1}}
	for i := range all {
		f := &all[i]
		if f.Parcel < 0 {
			continue
		}
		c.fronted[f.Parcel] = true
		if where := orb.LineString(f.Points).Bound(); seen.IsEmpty() {
			seen = where
		} else {
			seen = seen.Union(where)
		}
		if !chosen[f.Parcel] && c.named(parcels.Items[f.Parcel].Label) && c.meets(f) {
			chosen[f.Parcel] = true
		}
	}
	switch {
	case len(chosen) > 0 || c.has != nil:
	case seen.IsEmpty():
		return nil, &job.Error{Message: "--window: no parcel fronts the shore, within it or elsewhere"}
	default:
		return nil, &job.Error{Message: fmt.Sprintf("--window: no front of a parcel meets it; the fronts lie within %.5f,%.5f,%.5f,%.5f", seen.Min[0], seen.Min[1], seen.Max[0], seen.Max[1])}
	}
	return slices.DeleteFunc(slices.Clone(all), func(f front.Front) bool { return !chosen[f.Parcel] }), nil
}

// near reports whether a parcel without a result is told of: by its id if there are lists,
// else by where it lies, as far as that is known.
func (c *choice) near(id string, where orb.Bound, known bool) bool {
	if c.has != nil {
		return c.named(id)
	}
	return c.Window == nil || !known || where.Intersects(*c.Window)
}
