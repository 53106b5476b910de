package screening

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"waterward/geo/geojson"
	"waterward/screening/envelope"
	"waterward/screening/front"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/out"
)

// parcelTable is parcels.csv: a row for each parcel with shore, for those near it that front
// none, and for those asked for that there are not.
type parcelTable struct {
	out.Table[*envelope.Result]
	parcels *layers.Layer
	columns []envelope.Column[*envelope.Result]
	notes   *front.Notes
	also    func(row []string) // is told each row that is of no result; nil if nothing is
}

// newParcelTable has the columns of a search, and those that the job has the parcels carry.
func newParcelTable(parcels *layers.Layer, columns []envelope.Column[*envelope.Result], notes *front.Notes) *parcelTable {
	own := []string{"parcel_id", "shared_with"}
	for _, c := range columns {
		own = append(own, c.Name)
	}
	own = append(own, "note")
	header := []string{own[0]}
	for _, name := range geojson.Besides(parcels.Source.Carry, own) {
		header = append(header, out.Text(name).Table)
	}
	t := &parcelTable{parcels: parcels, columns: columns, notes: notes}
	t.Table = out.Table[*envelope.Result]{Name: "parcels.csv", Header: append(header, own[1:]...), Filled: true, Of: t.rows}
	return t
}

// rows are a row for each parcel of a holding; shore of nobody's has none.
func (t *parcelTable) rows(r *envelope.Result) [][]string {
	if r.Of.Item < 0 {
		return nil
	}
	cells := make([]string, len(t.columns))
	for i, c := range t.columns {
		cells[i] = c.Cell(r).Table
	}
	var rows [][]string
	items := r.Of.Items()
	for _, item := range items {
		var others []string
		for _, other := range items {
			if other != item {
				others = append(others, t.parcels.Items[other].Label)
			}
		}
		rows = append(rows, slices.Concat(t.begun(item), []string{out.Text(strings.Join(others, "; ")).Table}, cells, []string{out.Text(strings.Join(t.notes.Of[item], "; ")).Table}))
	}
	return rows
}

// begun is the beginning of the row of a parcel: its id and what it carries.
func (t *parcelTable) begun(item int) []string {
	it := t.parcels.Items[item]
	row := []string{out.ID(it.Label).Table}
	for _, text := range it.Carried {
		row = append(row, out.Text(text).Table)
	}
	return row
}

// told writes a row that says one thing of a parcel, in some column.
func (t *parcelTable) told(begun []string, column, text string, gap float64) {
	row := make([]string, len(t.Header))
	copy(row, begun)
	row[slices.Index(t.Header, column)] = out.Text(text).Table
	row[slices.Index(t.Header, "gap_ft")] = out.Number(gap/job.Foot, 2).Table
	t.Write(row)
	if t.also != nil {
		t.also(row)
	}
}

// unusable writes the row of a parcel that could not be used.
func (t *parcelTable) unusable(why *geojson.FeatureError) {
	t.told([]string{out.ID(nameOf(why)).Table}, "error", why.Error(), math.NaN())
}

// nameOf is how a parcel that could not be used is called.
func nameOf(why *geojson.FeatureError) string { return cmp.Or(why.ID, "#"+strconv.Itoa(why.Number)) }
