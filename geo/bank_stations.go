package geo

import (
	"math"
	"sort"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// Stretch is a piece of a bank between two stations.
type Stretch struct {
	Points []orb.Point
	Length float64 // metres along the bank
}

// stations gives places along each of some lines, in metres from where it begins.
type stations struct {
	lines  *Lines
	chains []chain
	of     []int32   // by segment: its chain, -1: none
	start  []float64 // by segment: the station of its beginning
	length []float64 // by chain
}

func newStations(lines *Lines) *stations {
	s := &stations{lines: lines, chains: lines.chains(), of: make([]int32, len(lines.segs)), start: make([]float64, len(lines.segs))}
	for k := range s.of {
		s.of[k] = -1
	}
	s.length = make([]float64, len(s.chains))
	for i, c := range s.chains {
		at := 0.0
		for _, k := range c.segs {
			s.of[k], s.start[k] = int32(i), at
			at += flat.Distance(lines.segs[k].a, lines.segs[k].b)
		}
		s.length[i] = at
	}
	return s
}

// station is that of a foot on its chain.
func (s *stations) station(f Foot) float64 {
	g := &s.lines.segs[f.seg]
	return s.start[f.seg] + f.t*flat.Distance(g.a, g.b)
}

// within brings a station of a closed line into one round of it.
func (s *stations) within(chain int, station float64) float64 {
	if !s.chains[chain].loop {
		return station
	}
	if station = math.Mod(station, s.length[chain]); station < 0 {
		station += s.length[chain]
	}
	return station
}

// edge is which segment of a chain holds a station: the one that begins there, of two.
func (s *stations) edge(chain int, station float64) int {
	segs := s.chains[chain].segs
	station = s.within(chain, station)
	i := sort.Search(len(segs), func(i int) bool { return s.start[segs[i]] > station }) - 1
	return max(i, 0)
}

// at is the place at a station.
func (s *stations) at(chain int, station float64) orb.Point {
	k := s.chains[chain].segs[s.edge(chain, station)]
	g := &s.lines.segs[k]
	along := s.within(chain, station) - s.start[k]
	switch d := flat.Distance(g.a, g.b); {
	case along <= 0:
		return g.a
	case along >= d:
		return g.b
	default:
		return flat.At(g.a, g.b, 0, d, along)
	}
}

// between is the piece of a chain from one station to another, which over the seam of a
// closed one is more than its length.
func (s *stations) between(chain int, from, to float64) []orb.Point {
	out := []orb.Point{s.at(chain, from)}
	segs := s.chains[chain].segs
	for i, round := s.edge(chain, from), from-s.within(chain, from); ; i++ {
		if i == len(segs) {
			if !s.chains[chain].loop {
				break
			}
			i, round = 0, round+s.length[chain]
		}
		at := round + s.start[segs[i]]
		if at >= to-onLine/100 {
			break
		}
		if at > from+onLine/100 {
			out = append(out, s.lines.segs[segs[i]].a)
		}
	}
	return append(out, s.at(chain, to))
}

// laps is what stations of two pieces of a chain may differ by and be the same: of a
// closed one its length.
func (s *stations) laps(chain int) []float64 {
	if !s.chains[chain].loop {
		return []float64{0}
	}
	return []float64{-s.length[chain], 0, s.length[chain]}
}
