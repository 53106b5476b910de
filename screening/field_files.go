package screening

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/screening/field"
	"waterward/screening/job"
	"waterward/screening/out"
)

// mostMarks are in field.kmz and in field.gpx if they hold more than one proposal; above that
// a phone is slow to open them (from memory).
const mostMarks = 5000

// fieldFiles are what is taken to the shore: field.kmz, field.gpx and stakeout.csv.
type fieldFiles struct {
	title   string
	grid    *crs.System // of eastings and northings; nil if none is asked for
	sites   []*field.Site
	marks   int
	left    []string // proposals that are in the table alone
	outside []string // those where the grid is not meant to be used
}

// newFieldFiles are none if they are not asked for.
func newFieldFiles(j *job.Job, asked bool) *fieldFiles {
	if !asked {
		return &fieldFiles{}
	}
	return &fieldFiles{title: titleOf(j), grid: j.StakeoutCRS.System}
}

// gridName is the grid asked for, as run.json has it.
func (f *fieldFiles) gridName() string {
	if f.grid == nil {
		return ""
	}
	return f.grid.String()
}

// sinks are those of the three files.
func (f *fieldFiles) sinks() []out.Sink[*result] {
	page := func(name string, take func(*result), write func(io.Writer, field.About, []*field.Site) error) out.Sink[*result] {
		return &out.Page[*result]{
			Name:   name,
			Take:   func(r *result) func() { return func() { take(r) } },
			Render: func(w io.Writer) error { return write(w, f.about(), f.sites) },
		}
	}
	return []out.Sink[*result]{
		page("field.kmz", f.take, field.WriteKMZ),
		page("field.gpx", func(*result) {}, field.WriteGPX), // of the same sites
		&out.Table[*result]{Name: "stakeout.csv", Header: f.header(), Of: f.rows},
	}
}

// take keeps what is marked of a result, while there is room.
func (f *fieldFiles) take(r *result) {
	if r.marked == nil {
		return
	}
	if f.grid != nil && !f.grid.MeantFor(r.p.Of.Bound().Center()) {
		f.outside = append(f.outside, r.p.ID)
	}
	if len(f.left) > 0 || len(f.sites) > 0 && f.marks+r.marked.Marks() > mostMarks {
		f.left = append(f.left, r.p.ID)
		return
	}
	f.marks += r.marked.Marks()
	f.sites = append(f.sites, r.marked)
}

// about is what the files for phones and receivers say of themselves.
func (f *fieldFiles) about() field.About {
	var on []string
	for _, s := range f.sites {
		if !slices.Contains(on, s.Caution) {
			on = append(on, s.Caution)
		}
	}
	return field.About{
		Title:   f.title + ": " + toFind,
		Caution: fromMaps + ": " + strings.Join(on, "; "),
	}
}

// warnings are what the files lack.
func (f *fieldFiles) warnings() []string {
	var told []string
	if n := len(f.left); n > 0 {
		told = append(told, fmt.Sprintf("field.kmz and field.gpx leave out %s (%s), as more than %d marks are too many for a phone; stakeout.csv has all: screen fewer proposals at once for the rest", job.Count(n, "proposal"), job.Few(f.left), mostMarks))
	}
	if n := len(f.outside); n > 0 {
		told = append(told, fmt.Sprintf("stakeout.csv: %s (%s) lie where %s is not meant to be used: see that it is the right zone", job.Count(n, "proposal"), job.Few(f.outside), f.grid))
	}
	return told
}

func (f *fieldFiles) header() []string {
	made := []string{"id", "of", "point", "what", "lat", "lon", "lat_dms", "lon_dms"}
	if f.grid != nil {
		unit := "m"
		if f.grid.Unit == crs.SurveyFoot {
			unit = "usft"
		}
		made = append(made, "easting_"+unit, "northing_"+unit, "grid")
	}
	return append(made, "datum", "caution")
}

// rows are the places of a result, a row each.
func (f *fieldFiles) rows(r *result) [][]string {
	if r.marked == nil {
		return nil
	}
	datum := r.p.Of.CRS().Datum
	caution := fromMaps + ": " + r.marked.Caution
	if f.grid != nil {
		if shift := crs.DatumShift(datum, f.grid.Datum); shift > 0 {
			caution += fmt.Sprintf("; eastings and northings are not shifted to %s: up to %s off", f.grid.Datum, job.FeetText(shift))
		}
		if !f.grid.MeantFor(r.p.Of.Bound().Center()) {
			caution += fmt.Sprintf("; EPSG:%d is not meant to be used here", f.grid.Code)
		}
	}
	var made [][]string
	for _, p := range slices.Concat(r.marked.Points, r.marked.Ends) {
		row := []string{
			out.ID(r.p.ID).Table, p.Of, p.Name, out.Text(p.Says).Table,
			out.Number(p.At[1], out.PositionDecimals).Table, out.Number(p.At[0], out.PositionDecimals).Table,
			field.Latitude(p.At[1]), field.Longitude(p.At[0]),
		}
		if f.grid != nil {
			row = append(row, f.onGrid(p.At)...)
		}
		made = append(made, append(row, string(datum), caution))
	}
	return made
}

// gridDecimals are those of eastings and northings: 0.001 of a unit.
const gridDecimals = 3

func (f *fieldFiles) onGrid(at orb.Point) []string {
	if !f.grid.Reaches(at) {
		return []string{"", "", ""}
	}
	p := f.grid.Projected(at)
	return []string{out.Number(p[0], gridDecimals).Table, out.Number(p[1], gridDecimals).Table, f.grid.String()}
}
