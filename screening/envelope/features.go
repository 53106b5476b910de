package envelope

import (
	"math"
	"slices"
	"strconv"

	"github.com/paulmach/orb"

	"waterward/geo/area"
	"waterward/geo/crs"
	"waterward/geo/geojson"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/out"
	"waterward/screening/site"
)

// FrontFeature is the front of a holding as a feature.
func (e *Search) FrontFeature(r *Result, label, shared string) []byte {
	plane := crs.NewPlane(r.middle())
	var lines [][]orb.Point
	for _, f := range r.Of.Fronts {
		var line []orb.Point
		for _, at := range f.Points {
			line = append(line, plane.Forward(at))
		}
		lines = append(lines, line)
	}
	return out.LinesFeature(plane, lines, []geojson.Member{
		{Key: "parcel_id", Raw: out.Text(label).JSON},
		{Key: "shared_with", Raw: out.Text(shared).JSON},
		{Key: "water", Raw: out.Text(e.Water(r)).JSON},
		{Key: "frontage_ft", Raw: out.Number(r.Frontage()/job.Foot, 2).JSON},
		{Key: "stations_ft", Raw: out.Text(e.stations(r)).JSON},
		{Key: "gap_ft", Raw: out.Number(r.gap()/job.Foot, 2).JSON},
		{Key: "error", Raw: out.Text(ErrorText(r.Wrong())).JSON},
	})
}

// ErrorText is what went wrong; empty if nothing did.
func ErrorText(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

// namedCauses are the causes with a property of their own in envelope.geojson; named
// areas share one, and what is not known another.
var namedCauses = site.Causes()

// AreaFeatures are the open water of each path, and where it is not known.
func (r *Result) AreaFeatures(label, shared string) [][]byte {
	var made [][]byte
	for i, t := range r.paths {
		for _, state := range []string{"open", "unknown"} {
			var shape orb.MultiPolygon
			for _, f := range r.fronts {
				if f.err != nil {
					continue
				}
				part := f.zone.paths[i].open
				if state == "unknown" {
					part = f.zone.paths[i].blank
				}
				shape = append(shape, written(f.shore.Footprint.Plane, part)...)
			}
			// Slivers can collapse, and edges cross, when positions are rounded.
			if shape != nil && area.Check(shape) != nil {
				shape = rewritten(shape)
			}
			if len(shape) > 0 {
				made = append(made, out.AreaFeature(shape, t.members(label, shared, state)))
			}
		}
	}
	return made
}

// rewritten is an area rebuilt; if that fails, what of it is valid by itself.
func rewritten(shape orb.MultiPolygon) orb.MultiPolygon {
	if rebuilt, err := area.Repair(shape); err == nil {
		return rebuilt
	}
	return slices.DeleteFunc(shape, func(p orb.Polygon) bool { return area.Check(orb.MultiPolygon{p}) != nil })
}

// written is an area of a plane in degrees, with the decimals that outputs have.
func written(plane *crs.Plane, shape orb.MultiPolygon) orb.MultiPolygon {
	round := math.Pow10(out.PositionDecimals)
	var made orb.MultiPolygon
	for _, polygon := range shape {
		var rings orb.Polygon
		for _, ring := range polygon {
			var line orb.Ring
			for _, p := range ring {
				at := plane.Inverse(p)
				line = append(line, orb.Point{math.Round(at[0]*round) / round, math.Round(at[1]*round) / round})
			}
			rings = append(rings, line)
		}
		made = append(made, rings)
	}
	return made
}

func (t *pathTotal) members(label, shared, state string) []geojson.Member {
	size := t.area
	if state == "unknown" {
		size = t.unknown
	}
	made := []geojson.Member{
		{Key: "parcel_id", Raw: out.Text(label).JSON},
		{Key: "shared_with", Raw: out.Text(shared).JSON},
		{Key: "authority", Raw: out.Text(t.book.Authority).JSON},
		{Key: "book", Raw: out.Text(t.book.Name).JSON},
		{Key: "edition", Raw: out.Text(t.book.Edition).JSON},
		{Key: "path", Raw: out.Text(t.path.ID).JSON},
		{Key: "state", Raw: out.Text(state).JSON},
		{Key: "area_sqft", Raw: out.Number(size/job.SquareFoot, 1).JSON},
		{Key: "open_ft", Raw: out.Number(t.open/job.Foot, 1).JSON},
		{Key: "longest_ft", Raw: out.Number(t.longest/job.Foot, 1).JSON},
		{Key: "reach_ft", Raw: out.Number(t.deepest/job.Foot, 2).JSON},
		{Key: "fits_ft", Raw: out.Number(t.length/job.Foot, 1).JSON},
	}
	for _, cause := range namedCauses {
		made = append(made, geojson.Member{Key: "taken_" + underscored(cause) + "_pct", Raw: out.Number(t.share(t.taken[cause]), 1).JSON})
	}
	areas := 0.0 // the most that one of several takes, as they may overlap
	for cause, shape := range t.taken {
		if wantOf(cause) == "" && !slices.Contains(namedCauses, cause) {
			areas = math.Max(areas, shape)
		}
	}
	return append(made,
		geojson.Member{Key: "taken_areas_pct", Raw: out.Number(t.share(areas), 1).JSON},
		geojson.Member{Key: "taken_no_data_pct", Raw: out.Number(t.share(t.blank()), 1).JSON})
}

// share is a share of the band in percent.
func (t *pathTotal) share(shape float64) float64 {
	if t.band == 0 {
		return 0
	}
	return 100 * shape / t.band
}

// LateralFeatures are the riparian lines constructed.
func (r *Result) LateralFeatures(label string) [][]byte {
	var made [][]byte
	for i, f := range r.fronts {
		if f.shore == nil {
			continue
		}
		for _, l := range f.shore.lateral {
			if l.line == nil {
				continue
			}
			made = append(made, out.LineFeature(f.shore.Footprint.Plane, l.line, []geojson.Member{
				{Key: "id", Raw: out.Text(r.Name + " " + strconv.Itoa(i+1) + " " + l.end).JSON},
				{Key: "parcel_id", Raw: out.Text(label).JSON},
				{Key: "method", Raw: out.Text("constructed " + l.method + "; not surveyed").JSON},
				{Key: "made_by", Raw: out.Text(layers.MadeBy).JSON},
			}))
		}
	}
	return made
}
