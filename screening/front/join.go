package front

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// join puts together what was found in the chunks of a strand.
func (f *frontage) join(strand int, chunks []*chunk, found [][2][]stretch) []Front {
	points, closed := f.shore.Strand(strand)
	stations := stationsOf(chunks)
	var owned, doubts []stretch
	for i, c := range chunks {
		start := stations[c.from]
		for k, into := range []*[]stretch{&owned, &doubts} {
			for _, s := range found[i][k] {
				s.from, s.to = s.from+start, s.to+start
				*into = append(*into, s)
			}
		}
	}
	length := stations[len(stations)-1]
	owned = joined(owned)
	if closed {
		owned = overSeam(owned, length)
	}
	owned = slices.DeleteFunc(owned, func(s stretch) bool { return s.to-s.from < cornerRounding })
	closeGaps(owned, length)
	left := unowned(owned, joined(doubts), length)
	if closed {
		left = overSeam(left, length)
	}
	all := append(owned, left...)
	slices.SortFunc(all, byStation)
	out, mapped := make([]Front, len(all)), f.mapped(strand, stations)
	for i, s := range all {
		edge, _ := slices.BinarySearch(stations, s.from+frontEnd)
		out[i] = Front{
			Item: f.shore.EdgeItem(strand, max(0, min(edge, len(stations)-1)-1)), Parcel: s.parcel, Strand: strand, From: s.from, To: s.to, Gap: s.gap, Why: s.why,
			Along: mapped.between(s.from, s.to, length), Whole: closed && s.from == 0 && s.to == length, Points: pointsBetween(points, stations, s.from, s.to),
		}
	}
	return out
}

// stationsOf are those of the vertices of a strand, in metres from its first.
func stationsOf(chunks []*chunk) []float64 {
	stations := []float64{0}
	for _, c := range chunks {
		start := stations[len(stations)-1]
		for _, s := range c.stations[1:] {
			stations = append(stations, start+s)
		}
	}
	return stations
}

func byStation(a, b stretch) int {
	return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.parcel, b.parcel))
}

// joined makes one of the stretches of an owner that meet, but for rounding.
func joined(all []stretch) []stretch {
	slices.SortFunc(all, func(a, b stretch) int {
		return cmp.Or(cmp.Compare(a.parcel, b.parcel), cmp.Compare(a.why, b.why), cmp.Compare(a.from, b.from))
	})
	var out []stretch
	for _, s := range all {
		if last := len(out) - 1; last >= 0 && out[last].owner == s.owner && s.from-out[last].to <= cornerRounding {
			out[last].to, out[last].gap = max(out[last].to, s.to), max(out[last].gap, s.gap)
		} else {
			out = append(out, s)
		}
	}
	slices.SortFunc(out, byStation)
	return out
}

// overSeam makes one of the stretches of an owner that meet at the seam of a closed
// strand.
func overSeam(all []stretch, length float64) []stretch {
	begins := func(s stretch) bool { return s.from <= cornerRounding }
	ends := func(s stretch) bool { return length-s.to <= cornerRounding }
	after := map[owner]stretch{}
	for _, s := range all {
		if begins(s) && !ends(s) {
			after[s.owner] = s
		}
	}
	met := map[owner]bool{}
	for i, s := range all {
		if next, ok := after[s.owner]; ok && ends(s) && !begins(s) {
			all[i].to, all[i].gap, met[s.owner] = length+next.to, max(s.gap, next.gap), true
		}
	}
	return slices.DeleteFunc(all, func(s stretch) bool { return begins(s) && !ends(s) && met[s.owner] })
}

// closeGaps closes gaps between fronts that are only rounding.
func closeGaps(owned []stretch, length float64) {
	reach := 0.0
	for _, s := range owned {
		reach = max(reach, s.to-length)
	}
	for i := range owned {
		if s := &owned[i]; s.from-reach < cornerRounding {
			s.from = min(s.from, reach)
		}
		reach = max(reach, owned[i].to)
	}
	for i := range owned {
		if s := &owned[i]; s.to == reach && reach > length-cornerRounding {
			s.to = max(reach, length)
		}
	}
}

// unowned is what of the shore the stretches leave, parted where there are doubts.
func unowned(owned, doubts []stretch, length float64) []stretch {
	var out []stretch
	add := func(o owner, from, to float64) {
		if from < to {
			out = append(out, stretch{owner: o, from: from, to: to})
		}
	}
	reach := 0.0
	for _, s := range owned {
		reach = max(reach, s.to-length)
	}
	for _, s := range append(slices.Clone(owned), stretch{from: length, to: length}) {
		for len(doubts) > 0 && reach < s.from {
			d := doubts[0]
			if d.from >= s.from {
				break
			}
			add(nobody, reach, d.from)
			add(d.owner, max(reach, d.from), min(d.to, s.from))
			reach = max(reach, min(d.to, s.from))
			if d.to > s.from {
				break
			}
			doubts = doubts[1:]
		}
		add(nobody, reach, s.from)
		reach = max(reach, s.to)
	}
	return out
}

// pointsBetween are the positions of a strand from one station to another.
func pointsBetween(points []orb.Point, stations []float64, from, to float64) []orb.Point {
	last := len(points) - 1
	if over := to - stations[last]; over > 0 {
		return append(pointsBetween(points, stations, from, stations[last]), pointsBetween(points, stations, 0, over)[1:]...)
	}
	at := func(edge int, station float64) orb.Point {
		return flat.At(points[edge], points[edge+1], stations[edge], stations[edge+1], station)
	}
	first, _ := slices.BinarySearch(stations, from)
	out := []orb.Point{}
	if first > 0 && stations[first] > from {
		out = append(out, at(first-1, from))
	}
	for ; first <= last && stations[first] <= to; first++ {
		out = append(out, points[first])
	}
	if first <= last && stations[first-1] < to {
		out = append(out, at(first-1, to))
	}
	return out
}
