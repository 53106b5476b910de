package levels

import "strings"

// flags are the columns in which the tide service marks levels that are not sound, and
// where it says whether they are verified; -1 if nowhere.
type flags struct {
	marks    []int // 1 there: not sound
	inferred int   // 1 there is so only in a verified level; in others it counts samples
	quality  int
}

// The service's own names: the flat, the rate of change and the expected level were
// beyond their limits, or the level was inferred.
var markColumns = []string{"F", "R", "L", "I"}

func flagColumns(header []string) flags {
	f := flags{inferred: -1, quality: -1}
	for k, cell := range header {
		name := strings.ToUpper(strings.TrimSpace(cell))
		switch {
		case strings.HasPrefix(name, "O OR I"):
			f.inferred = k
		case name == "QUALITY":
			f.quality = k
		}
		for _, mark := range markColumns {
			if name == mark {
				f.marks = append(f.marks, k)
			}
		}
	}
	return f
}

// raised reports whether a row bears a flag.
func (f flags) raised(row []string) bool {
	is := func(k int, text string) bool {
		return k >= 0 && k < len(row) && strings.EqualFold(strings.TrimSpace(row[k]), text)
	}
	for _, k := range f.marks {
		if is(k, "1") {
			return true
		}
	}
	return is(f.inferred, "1") && is(f.quality, "v")
}
