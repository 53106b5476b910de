package geo

import (
	"slices"

	"github.com/paulmach/orb"
)

// withoutRepeats drops lines mapped twice over, in either direction: joined end
// to end they would make a ring that holds nothing.
func withoutRepeats(in []strand) []strand {
	type ends struct{ a, b orb.Point }
	var out []strand
	seen := map[ends][]int{}
	for _, s := range in {
		key := ends{s.points[0], s.points[len(s.points)-1]}
		again := false
		for _, k := range seen[key] {
			again = again || slices.Equal(out[k].points, s.points)
		}
		for _, k := range seen[ends{key.b, key.a}] {
			again = again || slices.Equal(out[k].points, s.reverse().points)
		}
		if !again {
			seen[key] = append(seen[key], len(out))
			out = append(out, s)
		}
	}
	return out
}

// joinEnds joins open strands at positions where exactly two of them end.
func joinEnds(in []strand) []strand {
	ends := map[orb.Point][]int{}
	for i, s := range in {
		if !s.closed {
			ends[s.points[0]] = append(ends[s.points[0]], i)
			ends[s.points[len(s.points)-1]] = append(ends[s.points[len(s.points)-1]], i)
		}
	}
	used := make([]bool, len(in))
	// extend lengthens s at its last point until nothing joins there.
	extend := func(s strand) strand {
		for own := false; ; own = true {
			last := s.points[len(s.points)-1]
			if last == s.points[0] {
				s.closed = true
				return s
			}
			next := -1
			if there := ends[last]; len(there) == 2 {
				for _, k := range there {
					if !used[k] {
						next = k
					}
				}
			}
			if next < 0 {
				return s
			}
			used[next] = true
			t := in[next]
			if t.points[0] != last {
				t = t.reverse()
			}
			for _, r := range t.runs {
				r.from += len(s.points) - 1
				s.runs = append(s.runs, r)
			}
			if !own {
				s.points = slices.Clone(s.points)
			}
			s.points = append(s.points, t.points[1:]...)
		}
	}
	var out []strand
	for i, s := range in {
		if used[i] {
			continue
		}
		used[i] = true
		if !s.closed {
			if s = extend(s); !s.closed {
				// Grow the other end too, keeping the direction of the first piece.
				s = extend(s.reverse()).reverse()
			}
		}
		out = append(out, s)
	}
	return out
}

func (s strand) reverse() strand {
	out := strand{closed: s.closed, points: make([]orb.Point, len(s.points))}
	for i, p := range s.points {
		out.points[len(s.points)-1-i] = p
	}
	edges := len(s.points) - 1
	for i := len(s.runs) - 1; i >= 0; i-- {
		end := edges
		if i+1 < len(s.runs) {
			end = s.runs[i+1].from
		}
		out.runs = append(out.runs, run{edges - end, s.runs[i].item, s.runs[i].part, !s.runs[i].reversed})
	}
	return out
}
