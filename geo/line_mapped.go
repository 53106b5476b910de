package geo

// Mapped is where one line, as it was mapped, lies in a strand.
type Mapped struct {
	Item     int  // of the layer
	Part     int  // which of the lines of the item, from 0
	From, To int  // the vertices of the strand between which it lies
	Reversed bool // the strand runs against the direction in which it was mapped
}

// Mapped returns the lines that a strand was joined of, along it: each lies in it whole.
func (l *Layer) Mapped(strand int) []Mapped {
	s := &l.strands[strand]
	out := make([]Mapped, len(s.runs))
	for i, r := range s.runs {
		out[i] = Mapped{int(r.item), int(r.part), r.from, len(s.points) - 1, r.reversed}
		if i > 0 {
			out[i-1].To = r.from
		}
	}
	return out
}
