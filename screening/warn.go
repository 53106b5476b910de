package screening

import (
	"fmt"
	"slices"

	"waterward/geo"
)

// pageSizes are the greatest numbers of features that servers send at once: a
// layer of exactly so many is likely the first page of a longer one.
var pageSizes = []int{500, 1000, 2000, 3000, 5000, 10000}

// coarse is the grain of positions, in metres, from which a file is warned of:
// that of 6 decimals of a degree; half a unit of the seventh is 0.018 ft.
const coarse = 0.05

// warnings are what of a file is no fault and may still mislead.
func warnings(role, file string, features int, r *geo.Reader) []string {
	var out []string
	if slices.Contains(pageSizes, features) {
		out = append(out, fmt.Sprintf("%s: %s has exactly %d features, the size of a page: make sure that it is the whole layer", role, file, features))
	}
	if grain := r.Grain(); features > 0 && grain > coarse {
		out = append(out, fmt.Sprintf("%s: the coordinates of %s have at most %d decimals, so positions may be %s off: export it with more", role, file, r.Decimals(), feetText(grain)))
	}
	return out
}

// doubts are what of the layers, set against one another, may mislead.
func (m *mapped) doubts(radius float64) []string {
	var out []string
	for _, name := range m.apart(radius) {
		out = append(out, apartText(name))
	}
	if n := len(m.crossing); n > 0 {
		out = append(out, fmt.Sprintf("the lines of mean high and of mean low water cross %d times (first at %.6f, %.6f): check both layers", n, m.crossing[0][0], m.crossing[0][1]))
	}
	return append(out, m.contradicted(radius)...)
}
