package geojson

// digits is how the numbers of one geometry are written, axis by axis.
type digits struct {
	count [2][mostTold + 1]int // numbers of so many decimals that say something
	first [2]float64
	apart [2]bool        // not all of the numbers of the axis are the same
	few   [2][]writtenAs // the first of them, each number once
	n     int
}

// writtenAs is a number with its decimals.
type writtenAs struct {
	value    float64
	decimals int
}

const (
	// mostTold is more decimals than any position needs: the 15th of a degree is less
	// than an atom.
	mostTold = 15
	// fewNumbers is up to how many positions each number of an axis counts once: the
	// corners of a box share theirs.
	fewNumbers = 64
)

// forget makes room for another geometry.
func (d *digits) forget() {
	few := d.few
	*d = digits{few: [2][]writtenAs{few[0][:0], few[1][:0]}}
}

// take counts a position.
func (d *digits) take(axis int, v float64, decimals int) {
	decimals = max(0, min(decimals, mostTold))
	d.count[axis][decimals]++
	if axis == 0 {
		d.n++
	}
	if d.n == 1 {
		d.first[axis] = v
	}
	d.apart[axis] = d.apart[axis] || v != d.first[axis]
	if d.n > fewNumbers {
		return
	}
	for _, w := range d.few[axis] {
		if w.value == v {
			return
		}
	}
	d.few[axis] = append(d.few[axis], writtenAs{v, decimals})
}

// decimals is with how many the geometry is written: on the axis of fewer, so many that
// half of its numbers have them, as zeros at the end may be left out and one long number
// among short ones says nothing of those. An axis on which all is the same number, as of
// a line due east, says nothing if the other does.
func (d *digits) decimals() int {
	least := mostTold + 1
	for axis := range d.count {
		if d.apart[axis] {
			least = min(least, d.of(axis))
		}
	}
	if least > mostTold {
		least = max(d.of(0), d.of(1))
	}
	return least
}

func (d *digits) of(axis int) int {
	count, n := d.count[axis], d.n
	if n <= fewNumbers {
		count, n = [mostTold + 1]int{}, len(d.few[axis])
		for _, w := range d.few[axis] {
			count[w.decimals]++
		}
	}
	for decimals, having := mostTold, 0; decimals > 0; decimals-- {
		if having += count[decimals]; 2*having >= n {
			return decimals
		}
	}
	return 0
}
