package site

import (
	"strings"

	"waterward/rules"
	"waterward/screening/layers"
	"waterward/screening/out"
)

// Cell shows a measure in its column; opening is the width of opening the runs are shown
// for, every how much length an opening is asked for. What is unknown or only bounded is
// empty.
func (s *Site) Cell(r Record, opening, every float64) out.Cell {
	m, _ := rules.FindMeasure(r.Name)
	ref := rules.Ref{Measure: r.Name}
	for _, parameter := range m.Parameters {
		switch parameter {
		case rules.OpeningParameter:
			ref.Opening = opening
		case rules.EveryParameter:
			ref.Every = every
		}
	}
	v := s.Measure(ref)
	switch {
	case v.Unknown != "" || v.Bound != rules.Exact:
		return out.Text("")
	case m.Quantity == rules.Word:
		return out.Text(v.Word)
	case m.Quantity == rules.Names && len(v.Names) == 0:
		return out.Text("outside")
	case m.Quantity == rules.Names:
		return out.Text(strings.Join(v.Names, "; "))
	}
	return out.Number(v.Number/r.Column.PerUnit, r.Column.Decimals)
}

// ShownWords are the measures that are words or names of what is mapped, each a column; of
// named areas those that the job gives.
func ShownWords(areas []*layers.Layer) []Record {
	out := those(func(r Record) bool { return r.Column.PerUnit == 0 && r.Layer != "" })
	for _, l := range areas {
		out = append(out, RecordOf("in_area:"+strings.TrimPrefix(l.Name, "areas.")))
	}
	return out
}

// PlacedCell shows what the mound measures as placed; empty where no settlement is
// stated, or the slope is not known.
func (s *Site) PlacedCell(r Record) out.Cell {
	if number, known := s.asPlaced[r.Name]; known {
		return out.Number(number/r.Column.PerUnit, r.Column.Decimals)
	}
	return out.Text("")
}
