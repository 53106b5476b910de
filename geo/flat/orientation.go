package flat

import (
	"cmp"
	"math"

	"github.com/paulmach/orb"
)

// Orientation is +1 if p lies left of the direction from a to b, -1 right, 0 on
// the line, exactly: where rounding could decide, it is worked out in full.
func Orientation(a, b, p orb.Point) int {
	// Shewchuk (1997), "Adaptive precision floating-point arithmetic and fast
	// robust geometric predicates", the first bound of orient2d.
	const bound = 3.3306690738754716e-16
	// What products lose to underflow is far less.
	const least = 1e-300
	left, right := (a[0]-p[0])*(b[1]-p[1]), (a[1]-p[1])*(b[0]-p[0])
	if det := left - right; math.Abs(det) > bound*(math.Abs(left)+math.Abs(right))+least {
		return cmp.Compare(det, 0)
	}
	if a == p || b == p || a == b {
		return 0
	}
	return exactOrientation(a, b, p)
}

// scaledTo is the power of two of the greatest coordinate when orientation is worked
// out in full: a product of two differences stays finite, and what it loses by underflow
// is nothing so long as the exponents of coordinates differ by less than 900.
const scaledTo = 500

// exactOrientation adds up the determinant as a sum of numbers that do not overlap
// (Shewchuk 1997, expansions), so that nothing is rounded away.
func exactOrientation(a, b, p orb.Point) int {
	_, power := math.Frexp(max(math.Abs(a[0]), math.Abs(a[1]), math.Abs(b[0]), math.Abs(b[1]), math.Abs(p[0]), math.Abs(p[1])))
	for _, at := range []*orb.Point{&a, &b, &p} {
		at[0], at[1] = math.Ldexp(at[0], scaledTo-power), math.Ldexp(at[1], scaledTo-power)
	}
	var sum expansion
	add := func(x, y [2]float64, sign float64) {
		for _, s := range x {
			for _, t := range y {
				product := s * t
				sum.add(sign * product)
				sum.add(sign * math.FMA(s, t, -product))
			}
		}
	}
	add(difference(a[0], p[0]), difference(b[1], p[1]), 1)
	add(difference(a[1], p[1]), difference(b[0], p[0]), -1)
	return sum.sign()
}

// difference is a-b as what rounding makes of it and what that leaves out.
func difference(a, b float64) [2]float64 {
	high, low := twoSum(a, -b)
	return [2]float64{low, high}
}

// twoSum is a+b as what rounding makes of it and what that leaves out (Knuth).
func twoSum(a, b float64) (sum, rest float64) {
	sum = a + b
	of := sum - a
	return sum, (a - (sum - of)) + (b - of)
}

// expansion is an exact sum of up to 16 numbers: parts that do not overlap, the least
// first.
type expansion struct {
	parts [16]float64
	n     int
}

func (e *expansion) add(v float64) {
	kept := 0
	for _, part := range e.parts[:e.n] {
		var rest float64
		if v, rest = twoSum(v, part); rest != 0 {
			e.parts[kept] = rest
			kept++
		}
	}
	if v != 0 {
		e.parts[kept] = v
		kept++
	}
	e.n = kept
}

// sign is that of the greatest part, which outweighs all others.
func (e *expansion) sign() int {
	if e.n == 0 {
		return 0
	}
	return cmp.Compare(e.parts[e.n-1], 0)
}
