package front

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"waterward/screening/job"
	"waterward/screening/layers"
)

// mapped are the lines that a strand was joined of, along it.
type mapped []mappedLine

// mappedLine is a line as it was mapped, between two stations of the strand.
type mappedLine struct {
	item, part int // part as in [Piece]
	from, to   float64
	reversed   bool
}

func (f *frontage) mapped(strand int, stations []float64) mapped {
	var out mapped
	for _, m := range f.shore.Mapped(strand) {
		part := 0
		if f.parted[m.Item] {
			part = m.Part + 1
		}
		out = append(out, mappedLine{m.Item, part, stations[m.From], stations[m.To], m.Reversed})
	}
	return out
}

// between are the pieces of the lines from one station of a strand to another, over the
// seam of a closed one if to is more than its length. What is only rounding is left out.
func (m mapped) between(from, to, length float64) []Piece {
	var out []Piece
	first := sort.Search(len(m), func(i int) bool { return m[i].to > from })
	for _, l := range m[first:] {
		if l.from >= to {
			break
		}
		a, b := math.Max(from, l.from), math.Min(to, l.to)
		if b-a <= equallyNear {
			continue
		}
		if l.reversed {
			a, b = l.to-b, l.to-a
		} else {
			a, b = a-l.from, b-l.from
		}
		out = append(out, Piece{l.item, l.part, a, b})
	}
	if to > length {
		out = append(out, m.between(0, to-length, length)...)
	}
	return out
}

// Stations says in feet where along which mapped lines of mean high water a front runs, as
// "mhw-7 812.30-850.00; mhw-8 0.00-20.00".
func (f *Front) Stations(high *layers.Layer) string {
	var said []string
	for _, p := range f.Along {
		name := high.Distinct(p.Item)
		if p.Part > 0 {
			name += fmt.Sprintf(" part %d", p.Part)
		}
		said = append(said, fmt.Sprintf("%s %s-%s", name, job.Fixed(p.From/job.Foot, 2), job.Fixed(p.To/job.Foot, 2)))
	}
	return strings.Join(said, "; ")
}
