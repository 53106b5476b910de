package screening

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/area"
	"waterward/geo/crs"
	"waterward/geo/geojson"
)

// frontFeature is the front of a holding as a feature.
func (e *envelope) frontFeature(r *parcelResult, label, shared string) []byte {
	plane := crs.NewPlane(r.middle())
	var lines [][]orb.Point
	for _, f := range r.of.fronts {
		var line []orb.Point
		for _, at := range f.points {
			line = append(line, plane.Forward(at))
		}
		lines = append(lines, line)
	}
	return linesFeature(plane, lines, []geojson.Member{
		{Key: "parcel_id", Raw: textCell(label).json},
		{Key: "shared_with", Raw: textCell(shared).json},
		{Key: "water", Raw: textCell(e.water(r)).json},
		{Key: "frontage_ft", Raw: numberCell(r.frontage()/foot, 2).json},
		{Key: "stations_ft", Raw: textCell(e.stations(r)).json},
		{Key: "gap_ft", Raw: numberCell(r.gap()/foot, 2).json},
		{Key: "error", Raw: textCell(errorText(r.wrong())).json},
	})
}

func errorText(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

// namedCauses are the causes with a property of their own in envelope.geojson; named
// areas share one, and what is not known another.
var namedCauses = causes()

// areaFeatures are the open water of each path, and where it is not known.
func (r *parcelResult) areaFeatures(label, shared string) [][]byte {
	var out [][]byte
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
				shape = append(shape, written(f.shore.fp.Plane, part)...)
			}
			// Slivers can collapse, and edges cross, when positions are rounded.
			if shape != nil && area.Check(shape) != nil {
				shape = rewritten(shape)
			}
			if len(shape) > 0 {
				out = append(out, areaFeature(shape, t.members(label, shared, state)))
			}
		}
	}
	return out
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
	round := math.Pow10(positionDecimals)
	var out orb.MultiPolygon
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
		out = append(out, rings)
	}
	return out
}

func (t *pathTotal) members(label, shared, state string) []geojson.Member {
	size := t.area
	if state == "unknown" {
		size = t.unknown
	}
	out := []geojson.Member{
		{Key: "parcel_id", Raw: textCell(label).json},
		{Key: "shared_with", Raw: textCell(shared).json},
		{Key: "authority", Raw: textCell(t.book.Authority).json},
		{Key: "book", Raw: textCell(t.book.Name).json},
		{Key: "edition", Raw: textCell(t.book.Edition).json},
		{Key: "path", Raw: textCell(t.path.ID).json},
		{Key: "state", Raw: textCell(state).json},
		{Key: "area_sqft", Raw: numberCell(size/squareFoot, 1).json},
		{Key: "open_ft", Raw: numberCell(t.open/foot, 1).json},
		{Key: "longest_ft", Raw: numberCell(t.longest/foot, 1).json},
		{Key: "reach_ft", Raw: numberCell(t.deepest/foot, 2).json},
		{Key: "fits_ft", Raw: numberCell(t.length/foot, 1).json},
	}
	for _, cause := range namedCauses {
		out = append(out, geojson.Member{Key: "taken_" + strings.ReplaceAll(cause, " ", "_") + "_pct", Raw: numberCell(t.share(t.taken[cause]), 1).json})
	}
	areas, blank := 0.0, 0.0 // the most that one of several takes, as they may overlap
	for cause, shape := range t.taken {
		switch {
		case strings.HasPrefix(cause, noDataOn), strings.HasPrefix(cause, besideOf):
			blank = math.Max(blank, shape)
		case !slices.Contains(namedCauses, cause):
			areas = math.Max(areas, shape)
		}
	}
	return append(out,
		geojson.Member{Key: "taken_areas_pct", Raw: numberCell(t.share(areas), 1).json},
		geojson.Member{Key: "taken_no_data_pct", Raw: numberCell(t.share(blank), 1).json})
}

// share is a share of the band in percent.
func (t *pathTotal) share(shape float64) float64 {
	if t.band == 0 {
		return 0
	}
	return 100 * shape / t.band
}

// lateralFeatures are the riparian lines constructed.
func (r *parcelResult) lateralFeatures(label string) [][]byte {
	var out [][]byte
	for i, f := range r.fronts {
		if f.shore == nil {
			continue
		}
		for _, l := range f.shore.lateral {
			if l.line == nil {
				continue
			}
			out = append(out, lineFeature(f.shore.fp.Plane, l.line, []geojson.Member{
				{Key: "id", Raw: textCell(label + " " + strconv.Itoa(i+1) + " " + l.end).json},
				{Key: "parcel_id", Raw: textCell(label).json},
				{Key: "method", Raw: textCell("constructed " + l.method + "; not surveyed").json},
				{Key: "made_by", Raw: textCell(madeBy).json},
			}))
		}
	}
	return out
}
