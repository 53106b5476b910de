package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"waterward/screening/levels"
)

// widest is more than any reef or sill is across, in metres (1,000 ft; common practice,
// no source).
const widest = 1000 * Foot

// deepest is by how much, in metres (20 ft), a mound may be said to sink: more than any
// on a foreshore is high (common practice, no source).
const deepest = 20 * Foot

// halfRound is half the girth of the Earth in metres: no distance is longer.
const halfRound = 20_037_508

// Span is between what a stated number lies, SI; most is said to be the most for the
// reason given.
type Span struct {
	least, most float64
	why         string
}

var (
	Elevations = Span{-levels.Highest, levels.Highest, "no tidal shore lies so far from its datum"}
	Widths     = Span{0, widest, "no reef or sill is so large"}
	Sinkings   = Span{0, deepest, "no mound on a foreshore is so high"}
	Shares     = Span{0, 1, "that is more than all of it"}
	Positive   = Span{0, halfRound, "nothing is so large"}
	Signed     = Span{-halfRound, halfRound, "nothing is so large"}
)

// Refuses says why a stated number cannot be, or is nil. It is in SI, and told in the
// unit of the property's name.
func (s Span) Refuses(name string, value float64) error {
	stated := value / PerUnit(name)
	switch {
	case isNoData(stated) || math.IsNaN(value):
		return fmt.Errorf("%s is %g, which files write where there is none; state it, or leave it out", name, stated)
	case s.least == 0 && value < 0:
		return fmt.Errorf("%s is %g, which is less than nothing", name, stated)
	case value < s.least || value > s.most:
		return fmt.Errorf("%s is %g: %s", name, stated, s.why)
	}
	return nil
}

// isNoData recognizes the nines that files write for no value: -99, -999, 9999, -99999.0.
func isNoData(v float64) bool {
	text := strings.TrimPrefix(strconv.FormatFloat(math.Round(v*1e6)/1e6, 'f', -1, 64), "-")
	least := 4
	if v < 0 {
		least = 2
	}
	return len(text) >= least && strings.Trim(text, "9") == ""
}
