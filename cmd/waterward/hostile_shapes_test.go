package main

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/screening/job"
)

// xy is a place in feet off the demo's shore, x east of the mouth of a bay of seagrass and
// y waterward of mean high water.
type xy [2]float64

// drawing writes geometries in degrees.
type drawing struct {
	bytes.Buffer
	plane *crs.Plane
}

func draw(kind string, coordinates func(d *drawing)) string {
	d := &drawing{plane: crs.NewPlane(orb.Point{-74.6 + 1200*job.Foot/crs.MetresPerDegree/math.Cos(30*crs.PerDegree), 30})}
	fmt.Fprintf(d, `{"type":%q,"coordinates":`, kind)
	coordinates(d)
	d.WriteByte('}')
	return d.String()
}

func (d *drawing) position(p xy) {
	at := d.plane.Inverse(orb.Point{p[0] * job.Foot, p[1] * job.Foot})
	d.Write(append(strconv.AppendFloat(append(strconv.AppendFloat([]byte{'['}, at[0], 'f', 11, 64), ','), at[1], 'f', 11, 64), ']'))
}

// list writes what each writes, in brackets.
func (d *drawing) list(n int, each func(i int)) {
	d.WriteByte('[')
	for i := range n {
		if i > 0 {
			d.WriteByte(',')
		}
		each(i)
	}
	d.WriteByte(']')
}

func (d *drawing) positions(line []xy) { d.list(len(line), func(i int) { d.position(line[i]) }) }

func (d *drawing) rings(rings [][]xy) { d.list(len(rings), func(i int) { d.positions(rings[i]) }) }

func lineOf(line []xy) string {
	return draw("LineString", func(d *drawing) { d.positions(line) })
}

func linesOf(lines [][]xy) string {
	return draw("MultiLineString", func(d *drawing) { d.rings(lines) })
}

func polygonOf(rings ...[]xy) string {
	return draw("Polygon", func(d *drawing) { d.rings(rings) })
}

func pointsOf(points []xy) string {
	return draw("MultiPoint", func(d *drawing) { d.positions(points) })
}

// partsOf is a multipolygon of parts of one ring each.
func partsOf(parts [][]xy) string {
	return draw("MultiPolygon", func(d *drawing) {
		d.list(len(parts), func(i int) { d.rings(parts[i : i+1]) })
	})
}

// along is n places by a function of a share of the way, 0 to 1.
func along(n int, place func(t float64) xy) []xy {
	made := make([]xy, n)
	for i := range made {
		made[i] = place(float64(i) / float64(n-1))
	}
	return made
}

func closed(ring []xy) []xy { return append(ring, ring[0]) }

func box(x, y, wide, tall float64) []xy {
	return []xy{{x, y}, {x + wide, y}, {x + wide, y + tall}, {x, y + tall}, {x, y}}
}

// grid is what is made at each of n places, across a row and then the next.
func grid[T any](n, row int, pitch float64, each func(x, y float64) T) []T {
	made := make([]T, n)
	for i := range made {
		made[i] = each(float64(i%row)*pitch, 30+float64(i/row)*pitch)
	}
	return made
}

func place(x, y float64) xy { return xy{x, y} }

// moved is a line elsewhere.
func moved(line []xy, x, y float64) []xy {
	for i := range line {
		line[i][0], line[i][1] = line[i][0]+x, line[i][1]+y
	}
	return line
}

// zigzag is a line of n vertices to and fro between two heights.
func zigzag(n int, wide, tall float64) []xy {
	made := along(n, func(t float64) xy { return xy{t * wide, 30} })
	for i := 1; i < n; i += 2 {
		made[i][1] += tall
	}
	return made
}

// comb is the outline between two zigzags, one above the other: a strip of corners.
func comb(n int, wide, tall, thick float64) []xy {
	up := zigzag(n, wide, tall)
	ring := append([]xy{}, up...)
	for i := n - 1; i >= 0; i-- {
		ring = append(ring, xy{up[i][0], up[i][1] + thick})
	}
	return closed(ring)
}

// star is a ring round a middle whose corners lie by turns at two distances.
func star(points int, inner, outer float64) []xy {
	ring := make([]xy, 2*points)
	for i := range ring {
		r := outer
		if i%2 == 1 {
			r = inner
		}
		turn := math.Pi * float64(i) / float64(points)
		ring[i] = xy{100 + r*math.Cos(turn), 150 + r*math.Sin(turn)}
	}
	return closed(ring)
}

// pentagram is a ring that goes round its middle many times.
func pentagram(n, step int) []xy {
	ring := make([]xy, n)
	for i := range ring {
		turn := 2 * math.Pi * float64(i*step%n) / float64(n)
		ring[i] = xy{100 + 90*math.Cos(turn), 150 + 90*math.Sin(turn)}
	}
	return closed(ring)
}

// spiral is a line that winds round a middle.
func spiral(n int, turns, from, to float64) []xy {
	return along(n, func(t float64) xy {
		r, turn := from+(to-from)*t, 2*math.Pi*turns*t
		return xy{100 + r*math.Cos(turn), 150 + r*math.Sin(turn)}
	})
}

// serpentine is a line of rows to and fro, each an edge, one of columns behind them.
func serpentine(rows, columns int) []xy {
	var line []xy
	for i := range rows {
		y := 40 + 200*float64(i)/float64(rows)
		if line = append(line, xy{0, y}, xy{200, y}); i%2 == 1 {
			line[2*i], line[2*i+1] = line[2*i+1], line[2*i]
		}
	}
	for i := range columns {
		x := 200 * float64(i) / float64(columns)
		a, b := xy{x, 30}, xy{x, 250}
		if i%2 == 1 {
			a, b = b, a
		}
		line = append(line, a, b)
	}
	return line
}

// scattered are n places at random, the same every time.
func scattered(n int, wide, tall float64) []xy {
	random := rand.New(rand.NewPCG(1, 2))
	made := make([]xy, n)
	for i := range made {
		made[i] = xy{wide * random.Float64(), 30 + tall*random.Float64()}
	}
	return made
}

// same is one place so many times.
func same(n int, at xy) []xy {
	made := make([]xy, n)
	for i := range made {
		made[i] = at
	}
	return made
}

// written is a geometry as it stands, in degrees.
func written(kind, coordinates string) string {
	return fmt.Sprintf(`{"type":%q,"coordinates":%s}`, kind, coordinates)
}

// nested is text within so many pairs of brackets.
func nested(open, within, shut string, times int) string {
	return strings.Repeat(open, times) + within + strings.Repeat(shut, times)
}
