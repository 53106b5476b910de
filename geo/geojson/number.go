package geojson

import "strconv"

const (
	// exactBelow: a whole number below 2^53 and a power of ten up to 10^22 are both
	// exact in a double, so that one division of the two is rounded once, as the number
	// itself would be (Clinger, How to Read Floating Point Numbers Accurately, 1990).
	exactBelow = 1 << 53
	// mostDigits is how many digits always fit in 64 bits.
	mostDigits = 19
)

var powersOfTen = [mostDigits]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18}

// number takes a number. It returns how many of its decimals say something too, as
// decimalsOf does. A number that is not finite is none.
func (j *jsonPass) number() (v float64, decimals int, ok bool) {
	text, start := j.text, j.i
	i := start
	minus := i < len(text) && text[i] == '-'
	if minus {
		i++
	}
	first, whole := i, uint64(0) // the digits without the point
	for ; i < len(text) && isDigit(text[i]); i++ {
		whole = whole*10 + uint64(text[i]-'0')
	}
	j.i = i
	digits, behind := i-first, 0
	if digits == 0 || digits > 1 && text[first] == '0' {
		return 0, 0, false
	}
	if i < len(text) && text[i] == '.' {
		for i++; i < len(text) && isDigit(text[i]); i++ {
			whole = whole*10 + uint64(text[i]-'0')
		}
		point := j.i
		j.i, behind = i, i-point-1
		if behind == 0 {
			return 0, 0, false
		}
		digits += behind
		decimals = telling(text[point+1 : i])
	}
	exponent := i < len(text) && text[i]|0x20 == 'e'
	if exponent {
		if !j.exponent() {
			return 0, 0, false
		}
		decimals = decimalsOf(text[start:j.i])
	}
	if exponent || digits > mostDigits || whole >= exactBelow {
		v, err := strconv.ParseFloat(string(text[start:j.i]), 64)
		return v, decimals, err == nil
	}
	v = float64(whole) / powersOfTen[behind]
	if minus {
		v = -v
	}
	return v, decimals, true
}

// exponent takes the exponent of a number.
func (j *jsonPass) exponent() bool {
	j.i++
	if j.i < len(j.text) && (j.text[j.i] == '-' || j.text[j.i] == '+') {
		j.i++
	}
	first := j.i
	for j.i < len(j.text) && isDigit(j.text[j.i]) {
		j.i++
	}
	return j.i > first
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }
