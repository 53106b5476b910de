package envelope

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/simplify"

	"waterward/geo/area"
	"waterward/geo/crs"
	"waterward/geo/geojson"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/out"
)

// drawnDetail is how far, in metres (0.03 ft), the outline of open water may be drawn off
// itself: with what it is off already, 0.05 ft in all.
const drawnDetail = 0.03 * job.Foot

// FrontFeatures are the fronts of a holding, with what each comes to.
func (e *Search) FrontFeatures(r *Result, label string) [][]byte {
	var made [][]byte
	for i, f := range r.Of.Fronts {
		plane := crs.NewPlane(f.Points[0])
		var line []orb.Point
		for _, at := range f.Points {
			line = append(line, plane.Forward(at))
		}
		members := []geojson.Member{
			{Key: "parcel_id", Raw: out.Text(label).JSON},
			{Key: "shared_with", Raw: out.Text(strings.Join(e.Labels(r.Of)[1:], "; ")).JSON},
			{Key: "water", Raw: out.Text(e.WaterOf(f)).JSON},
			{Key: "frontage_ft", Raw: out.Number((f.To-f.From)/job.Foot, 2).JSON},
		}
		var outcome *Outcome
		err := r.Err
		if r.Fronts != nil {
			outcome = r.Fronts[i]
			err = outcome.Err
		}
		for _, c := range e.outcomeColumns() {
			members = append(members, geojson.Member{Key: c.Name, Raw: c.Cell(outcome.said()).JSON})
		}
		members = append(members,
			geojson.Member{Key: "riparian", Raw: out.Text(strings.Join(outcome.riparian(), "; ")).JSON},
			geojson.Member{Key: "error", Raw: out.Text(ErrorText(err)).JSON})
		// What there is nothing to say of is left out: a county has many fronts.
		members = slices.DeleteFunc(members, func(m geojson.Member) bool { return string(m.Raw) == "null" })
		made = append(made, out.LineFeature(plane, line, out.ShortDecimals, members))
	}
	return made
}

// ErrorText is what went wrong; empty if nothing did.
func ErrorText(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

// AreaFeatures are the water in which one structure meets the easiest path of every
// authority, that of each alone (of every path, if all were asked), and where it is not
// known. Water that is the same for several is drawn once.
func (e *Search) AreaFeatures(r *Result, label string) [][]byte {
	type drawn struct {
		key   string
		names []string
		total total
	}
	var made [][]byte
	totals := e.Totals(r)
	for _, state := range []state{open, unclear} {
		var all []drawn
		for _, t := range totals {
			if !t.drawn || t.size(state) == 0 {
				continue
			}
			key := t.key(state)
			if i := slices.IndexFunc(all, func(d drawn) bool { return d.key == key }); i >= 0 {
				all[i].names = append(all[i].names, t.name())
				continue
			}
			all = append(all, drawn{key, []string{t.name()}, t})
		}
		for _, d := range all {
			var shape orb.MultiPolygon
			for i, p := range d.total.pools {
				if p != nil {
					shape = append(shape, written(r.Fronts[i].shore.Footprint.Plane, p.shape(state))...)
				}
			}
			if len(shape) > 0 {
				made = append(made, out.AreaFeature(shape, out.ShortDecimals, []geojson.Member{
					{Key: "parcel_id", Raw: out.Text(label).JSON},
					{Key: "of", Raw: out.Text(strings.Join(d.names, ", ")).JSON},
					{Key: "state", Raw: out.Text([]string{"", "unknown", "open"}[state]).JSON},
					{Key: "area_sqft", Raw: out.Number(d.total.size(state)/job.SquareFoot, 0).JSON},
				}))
			}
		}
	}
	return made
}

// written is an area of a plane in degrees, with no more positions and decimals than it
// takes. Slivers can collapse, and edges cross, when positions are left out or rounded.
func written(plane *crs.Plane, shape orb.MultiPolygon) orb.MultiPolygon {
	made := inDegrees(plane, shape, drawnDetail)
	if area.Check(made) == nil {
		return made
	}
	if made = inDegrees(plane, shape, 0); area.Check(made) == nil {
		return made
	}
	if rebuilt, err := area.Repair(made); err == nil {
		return rebuilt
	}
	return slices.DeleteFunc(made, func(p orb.Polygon) bool { return area.Check(orb.MultiPolygon{p}) != nil })
}

func inDegrees(plane *crs.Plane, shape orb.MultiPolygon, detail float64) orb.MultiPolygon {
	round := math.Pow10(out.ShortDecimals)
	plain := simplify.DouglasPeucker(detail)
	var made orb.MultiPolygon
	for _, polygon := range shape {
		var rings orb.Polygon
		for _, ring := range polygon {
			if detail > 0 {
				ring = plain.Ring(ring.Clone())
			}
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

// LateralFeatures are the riparian lines constructed.
func (r *Result) LateralFeatures(label string) [][]byte {
	var made [][]byte
	for i, f := range r.Fronts {
		if f.shore == nil {
			continue
		}
		for _, l := range f.shore.lateral {
			if l.line == nil {
				continue
			}
			made = append(made, out.LineFeature(f.shore.Footprint.Plane, l.line, out.ShortDecimals, []geojson.Member{
				{Key: "id", Raw: out.Text(r.Name + " " + strconv.Itoa(i+1) + " " + l.end).JSON},
				{Key: "parcel_id", Raw: out.Text(label).JSON},
				{Key: "method", Raw: out.Text("constructed " + l.method + "; not surveyed").JSON},
				{Key: "made_by", Raw: out.Text(layers.MadeBy).JSON},
			}))
		}
	}
	return made
}

// CandidateFeatures are the structures that a holding's answers rest on, each once.
func (e *Search) CandidateFeatures(r *Result, label string) [][]byte {
	var made [][]byte
	var done []*Candidate
	add := func(c *Candidate) {
		if c == nil || slices.Contains(done, c) {
			return
		}
		done = append(done, c)
		members := []geojson.Member{{Key: "parcel_id", Raw: out.Text(label).JSON}, {Key: "overall_length_ft", Raw: out.Number(c.Length/job.Foot, 2).JSON}}
		for i, b := range e.Books {
			members = append(members,
				geojson.Member{Key: b.Authority + "_path", Raw: out.Text(c.Decisions[i].Path.ID).JSON},
				geojson.Member{Key: b.Authority + "_certainty", Raw: out.Text(string(c.Decisions[i].Certainty)).JSON})
			if waived := c.Decisions[i].Waiver; len(waived) > 0 { // without which it is no path cleared
				members = append(members, geojson.Member{Key: b.Authority + "_waiver", Raw: out.Text(waived[0].Criterion.ID + " by " + waived[0].Criterion.WaivableBy).JSON})
			}
		}
		feature, _ := c.Feature.Annotated(members)
		made = append(made, feature)
	}
	for _, f := range r.Fronts {
		if f.Err == nil {
			add(f.Joint.Candidate)
			for i := range f.By {
				add(f.By[i].Candidate)
			}
		}
	}
	return made
}
