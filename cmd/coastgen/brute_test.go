package main

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Samples of a footprint lie on a grid of this spacing in metres, edges and corners
// included. No distance changes faster than the place, so between four samples it is
// at most half a diagonal beyond theirs.
const (
	sample    = 0.05
	betweenIt = sample * math.Sqrt2 / 2
	// The table has hundredths of a foot; a plane 100 m across and the metres of a
	// degree, both taken at its middle, add less than as much again.
	rounding = 0.01 * foot
)

// flat lays what is within a kilometre of a place on the plane that touches the
// ellipsoid there.
type flat struct{ middle plane }

func (f flat) line(in []point) (out []point) {
	for _, a := range in {
		out = append(out, point{(a.x - f.middle.lon) * f.middle.perLon, (a.y - f.middle.lat) * f.middle.perLat})
	}
	return out
}

// near are the lines of a layer that can be the nearest to a place within longest of
// the middle, those with the water on their right turned.
func (f flat) near(all []feature) (out [][]point) {
	least := math.Inf(1)
	for _, g := range all {
		for _, part := range g.shape.parts {
			for _, ring := range part {
				drawn := f.line(ring)
				if g.properties["side"] == "water_right" {
					slices.Reverse(drawn)
				}
				out, least = append(out, drawn), math.Min(least, point{}.fromLine(drawn))
			}
		}
	}
	far := func(a point) bool { return length([]point{{}, a}) > least+2*longest+longestEdge }
	for i, line := range out {
		if line[0] != line[len(line)-1] { // what is cut off is too far to be asked
			from := slices.IndexFunc(line, func(a point) bool { return !far(a) })
			to := len(line)
			for to > 0 && far(line[to-1]) {
				to--
			}
			out[i] = line[max(0, from):to]
		}
	}
	return slices.DeleteFunc(out, func(line []point) bool { return point{}.fromLine(line) > least+2*longest })
}

// signed is the distance of a place from the nearest line, positive to its left; at a
// vertex the two normals together decide. Whole is false at the end of a line.
func signed(a point, lines [][]point) (least float64, whole bool) {
	least = math.Inf(1)
	for _, line := range lines {
		for i := 1; i < len(line); i++ {
			p, q := line[i-1], line[i]
			d := q.minus(p)
			along := math.Max(0, math.Min(1, a.minus(p).dot(d)/d.dot(d)))
			foot := p.plus(d.times(along))
			if a.distance(foot) >= math.Abs(least) {
				continue
			}
			normal := d.left().times(1 / p.distance(q))
			other := i // the segment that shares the vertex
			if along == 0 {
				other = i - 1
			} else if along == 1 {
				other = i + 1
			}
			if closed := line[0] == line[len(line)-1]; closed && other == 0 {
				other = len(line) - 1
			} else if closed && other == len(line) {
				other = 1
			}
			if whole = other > 0 && other < len(line); whole && other != i {
				e := line[other].minus(line[other-1])
				normal = normal.plus(e.left().times(1 / math.Sqrt(e.dot(e))))
			}
			least = math.Copysign(a.distance(foot), a.minus(foot).dot(normal))
		}
	}
	return least, whole
}

// samples are places all over a footprint.
func samples(f flat, p feature) (out []point) {
	for _, part := range p.shape.parts {
		at := f.line(part[0])
		switch p.shape.form {
		case "Point":
			r := p.properties["diameter_ft"].(float64) * foot / 2
			for turn := 0.0; turn < 2*math.Pi; turn += sample / r {
				for in := 0.0; in < r+sample; in += sample {
					sin, cos := math.Sincos(turn)
					out = append(out, at[0].plus(point{cos, sin}.times(math.Max(0, r-in))))
				}
			}
		case "LineString":
			half := p.properties["width_ft"].(float64) * foot / 2
			across := at[1].minus(at[0]).left().times(half / at[1].distance(at[0]))
			out = append(out, grid(at[0].minus(across), at[1].minus(across), at[1].plus(across), at[0].plus(across))...)
		default:
			out = append(out, grid(at[0], at[1], at[2], at[3])...)
		}
	}
	return out
}

// grid fills the area of four corners, which are rounded and so make no rectangle.
func grid(a, b, c, d point) (out []point) {
	m, n := math.Ceil(a.distance(b)/sample)+1, math.Ceil(a.distance(d)/sample)+1
	for i := 0.0; i <= m; i++ {
		from, to := a.plus(b.minus(a).times(i/m)), d.plus(c.minus(d).times(i/m))
		for j := 0.0; j <= n; j++ {
			out = append(out, from.plus(to.minus(from).times(j/n)))
		}
	}
	return out
}

// longest is how far a proposal that is compared reaches from its first corner, and
// longestEdge no shorter than any edge of the lines cut, in metres.
const longest, longestEdge = 25.0, 70.0

// TestScreeningAgreesWithSampling compares the distances of a screened coast with
// those of samples, which know nothing of how the tool measures. Taken are proposals
// of up to 25 m that reach no farther out than half the narrowest canal, so that the
// bank they lie before is the nearest, and that are nearest to no end of a line.
func TestScreeningAgreesWithSampling(t *testing.T) {
	const halfOfCanal, searched, least = 10.0, 1000 * foot, 30
	of := sizes["small"]
	of.proposals = 90
	dir, _ := written(t, of, 5)
	rows := screened(t, dir)
	high, low, surveyed := featuresOf(t, dir, "mhw"), featuresOf(t, dir, "mlw"), featuresOf(t, dir, "surveyed")
	grass, riparian := featuresOf(t, dir, "seagrass"), featuresOf(t, dir, "riparian")
	compared := 0
	for _, p := range featuresOf(t, dir, "proposals") {
		row := rows[p.properties["id"].(string)]
		if row["error"] != "" || p.shape.form == "LineString" && p.properties["width_ft"] == nil {
			continue
		}
		begin := p.shape.parts[0][0][0]
		f := flat{newPlane(begin.x, begin.y, 0)}
		last := f.line(p.shape.parts[len(p.shape.parts)-1][0])
		if length([]point{{}, last[len(last)/2]}) > longest {
			continue
		}
		places := samples(f, p)
		measured, usable := map[string]float64{}, true
		for name, lines := range map[string][][]point{"mhw": f.near(high), "mlw": f.near(low)} {
			farthest, nearest := math.Inf(-1), math.Inf(1)
			for _, a := range places {
				d, whole := signed(a, lines)
				farthest, nearest, usable = math.Max(farthest, d), math.Min(nearest, d), usable && whole
			}
			measured[name+"_farthest_ft"], measured[name+"_nearest_ft"] = farthest, nearest
		}
		if !usable || measured["mhw_farthest_ft"] > halfOfCanal {
			continue
		}
		for name, lines := range map[string][][]point{"seagrass": f.near(grass), "riparian": f.near(riparian)} {
			nearest := math.Inf(1)
			for _, a := range places {
				d, _ := signed(a, lines)
				nearest = math.Min(nearest, math.Abs(d))
			}
			measured[name+"_nearest_ft"] = nearest
		}
		compared++
		inside, _ := signed(point{}, f.near(surveyed)) // its rings have their inside on the left
		for name, want := range measured {
			text := row[name]
			if text == "" && (want > searched || inside < math.Min(want, searched)+longest) {
				continue // it lies farther off than was looked, or something nearer may not be mapped
			}
			got, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err, "%s %s is %q, sampled %.2f ft", row["id"], name, text, want/foot)
			got *= foot
			beyond := got - want // what no sample reached
			if strings.Contains(name, "nearest") {
				beyond = -beyond
			}
			if want < sample && !strings.HasPrefix(name, "m") { // it may be crossed
				require.Less(t, got, sample, "%s %s", row["id"], name)
				continue
			}
			require.GreaterOrEqual(t, beyond, -rounding, "%s %s is %.2f ft, sampled %.3f ft", row["id"], name, got/foot, want/foot)
			require.LessOrEqual(t, beyond, betweenIt+rounding, "%s %s is %.2f ft, sampled %.3f ft", row["id"], name, got/foot, want/foot)
		}
	}
	require.GreaterOrEqual(t, compared, least)
}
