package drawing

import (
	"math"

	"github.com/paulmach/orb"
)

// Sizes of letters, in hundredths of an inch: capitals are 0.716 of them high, so those of
// dimensions are 0.12 in and those of names 0.10 in, the least that offices ask for (memory).
const (
	DimensionSize = 17.0
	NameSize      = 14.0
)

// steps round a circle in which places beside a thing are tried.
const directions = 12

// beside are places for words round a point, a leader to it from their nearer side.
func beside(at orb.Point, w, h, price float64) []candidate {
	var made []candidate
	for _, far := range [5]float64{10, 22, 40, 65, 100} {
		for i := range directions {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / directions)
			// On a square round the point, so that the nearest side of the box lies so far off.
			wide := math.Abs(cos) > math.Abs(sin)
			most := max(math.Abs(cos), math.Abs(sin))
			middle := orb.Point{at[0] + cos/most*(far+w/2), at[1] + sin/most*(far+h/2)}
			from := orb.Point{middle[0], middle[1] - sign(sin)*(h/2+2)}
			if wide {
				from = orb.Point{middle[0] - sign(cos)*(w/2+2), middle[1]}
			}
			made = append(made, candidate{at: middle, price: price + far/10, lead: []orb.Point{from, at}})
		}
	}
	return made
}

func sign(v float64) float64 { return math.Copysign(1, v) }

// LineName is the name of a drawn line: on it where it is straight for long enough, else
// beside it.
func (c *Canvas) LineName(name string, lines []string, heavy bool, owner int, of ...[]orb.Point) {
	c.wait(&pending{name: name, lines: lines, sizes: []float64{NameSize}, heavy: heavy, owner: owner, choose: func(w, h float64) []candidate {
		var made []candidate
		for _, points := range of {
			for _, piece := range c.clipped(points) {
				made = append(made, along(piece, w, h, len(lines) == 1)...)
			}
		}
		for i := range made { // of several places, that nearer to what the canvas shows
			made[i].price += distance(made[i].at, c.Bounds.Center()) / distance(c.Bounds.Min, c.Bounds.Max)
		}
		return made
	}})
}

// Words on a line may leave it by so much of their height, and are tried so far apart.
const (
	offLine   = 0.3
	nameSteps = 14
)

// along are the places for the name of a line.
func along(line orb.LineString, w, h float64, on bool) []candidate {
	var made []candidate
	whole := 0.0
	for i := 1; i < len(line); i++ {
		whole += distance(line[i-1], line[i])
	}
	for i := range nameSteps {
		s := whole * (float64(i) + 0.5) / nameSteps
		at := onLine(line, s)
		before, behind := onLine(line, s-w/2-4), onLine(line, s+w/2+4)
		far := distance(before, behind)
		if on && s > w/2+4 && s < whole-w/2-4 && far > w {
			direction := upright(orb.Point{(behind[0] - before[0]) / far, (behind[1] - before[1]) / far})
			k := candidate{at: at, along: direction, price: 0.2 + math.Abs(direction[1])}
			b := k.box(w, h)
			level := true
			for j := -2; j <= 2; j++ {
				level = level && math.Abs(b.local(onLine(line, s+float64(j)*w/4))[1]) <= offLine*h
			}
			if level {
				made = append(made, k)
			}
		}
		made = append(made, beside(at, w, h, 2)...)
	}
	return made
}

// steep is the cosine up to which words along a line stand up and are read from the right (6
// degrees off).
const steep = 0.1

// upright turns a direction so that words along it can be read from below or from the right.
func upright(d orb.Point) orb.Point {
	if d[0] < -steep || d[0] <= steep && d[1] > 0 {
		return orb.Point{-d[0], -d[1]}
	}
	return d
}

func distance(a, b orb.Point) float64 { return math.Hypot(b[0]-a[0], b[1]-a[1]) }

// onLine is the place so far along a line; its ends beyond.
func onLine(line []orb.Point, s float64) orb.Point {
	for i := 1; i < len(line); i++ {
		d := distance(line[i-1], line[i])
		if s <= d && d > 0 || i == len(line)-1 {
			t := 0.0
			if d > 0 {
				t = min(1, max(0, s/d))
			}
			return orb.Point{line[i-1][0] + t*(line[i][0]-line[i-1][0]), line[i-1][1] + t*(line[i][1]-line[i-1][1])}
		}
		s -= d
	}
	return line[0]
}

// areaSteps is in how many columns and rows of the canvas places in an area are tried.
const areaSteps = 16

// AreaName is the name of an area: in it, else beside it with a leader into it.
func (c *Canvas) AreaName(name string, lines []string, heavy bool, owner int, of ...orb.Polygon) {
	c.wait(&pending{name: name, lines: lines, sizes: []float64{NameSize}, heavy: heavy, owner: owner, choose: func(w, h float64) []candidate {
		var made []candidate
		for i := range areaSteps {
			for j := range areaSteps {
				at := orb.Point{
					c.Bounds.Min[0] + (float64(i)+0.5)/areaSteps*(c.Bounds.Max[0]-c.Bounds.Min[0]),
					c.Bounds.Min[1] + (float64(j)+0.5)/areaSteps*(c.Bounds.Max[1]-c.Bounds.Min[1]),
				}
				if !within(of, at) {
					continue
				}
				k := candidate{at: at}
				b := k.box(w, h)
				for _, p := range b.corners() {
					if !within(of, p) {
						k.price = 3 // it stands out over the edge
					}
				}
				made = append(made, k)
				if i%2 == 0 && j%2 == 0 {
					made = append(made, beside(at, w, h, 3)...)
				}
			}
		}
		if len(made) == 0 { // too small for the grid
			for _, polygon := range of {
				for _, ring := range polygon {
					for _, piece := range c.clipped(ring) {
						made = append(made, beside(onLine(piece, 0), w, h, 3)...)
					}
				}
			}
		}
		return made
	}})
}

// within reports whether a place lies in one of some areas.
func within(of []orb.Polygon, p orb.Point) bool {
	for _, polygon := range of {
		in := false
		for _, ring := range polygon {
			if inside(ring, p) {
				in = !in
			}
		}
		if in {
			return true
		}
	}
	return false
}

// PointName is the name of a place: at it if it may stand there, else beside it.
func (c *Canvas) PointName(name string, lines []string, heavy bool, owner int, at orb.Point, onIt bool) {
	c.wait(&pending{name: name, lines: lines, sizes: []float64{NameSize}, heavy: heavy, owner: owner, choose: func(w, h float64) []candidate {
		made := beside(at, w, h, 1)
		if onIt {
			made = append(made, candidate{at: at})
		}
		return made
	}})
}

func (c *Canvas) wait(p *pending) { c.pending = append(c.pending, p) }
