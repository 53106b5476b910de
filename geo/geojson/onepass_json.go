package geojson

import "unicode/utf8"

// mostNested is how many brackets within one another a value may have that is read in
// one pass: more than tables have, and far from the end of any stack.
const mostNested = 64

// jsonPass goes over a text of JSON once and strictly. It ends at i where the text is
// not as expected: there it is cut off, if that is its end, or wrong, or too odd for one
// pass.
type jsonPass struct {
	text  []byte
	i     int
	depth int
}

// next is the next byte that is not white space; 0, which no JSON has, at the end.
func (j *jsonPass) next() byte {
	for ; j.i < len(j.text); j.i++ {
		switch c := j.text[j.i]; c {
		case ' ', '\t', '\r', '\n':
		default:
			return c
		}
	}
	return 0
}

// take takes the next byte if it is c.
func (j *jsonPass) take(c byte) bool {
	if j.next() != c {
		return false
	}
	j.i++
	return true
}

// word takes exactly this text.
func (j *jsonPass) word(w string) bool {
	for k := 0; k < len(w); k++ {
		if j.i >= len(j.text) || j.text[j.i] != w[k] {
			return false
		}
		j.i++
	}
	return true
}

// value takes any value.
func (j *jsonPass) value() bool {
	switch c := j.next(); c {
	case '"':
		_, _, ok := j.quoted()
		return ok
	case '{':
		return j.nest('}')
	case '[':
		return j.nest(']')
	case 't':
		return j.word("true")
	case 'f':
		return j.word("false")
	case 'n':
		return j.word("null")
	}
	_, _, ok := j.number()
	return ok
}

// nest takes an object or an array, up to its closing bracket.
func (j *jsonPass) nest(closing byte) bool {
	if j.depth == mostNested {
		return false
	}
	j.i++
	if j.take(closing) {
		return true
	}
	j.depth++
	for {
		if closing == '}' {
			if _, _, ok := j.key(); !ok {
				return false
			}
		}
		if !j.value() {
			return false
		}
		if j.take(',') {
			continue
		}
		j.depth--
		return j.take(closing)
	}
}

// key takes the name of a member and what parts it from its value; plain if it is
// written as it reads.
func (j *jsonPass) key() (name []byte, plain, ok bool) {
	if j.next() != '"' {
		return nil, false, false
	}
	if name, plain, ok = j.quoted(); !ok || !j.take(':') {
		return nil, false, false
	}
	j.next()
	return name, plain, true
}

// asItReads are the bytes that stand for themselves in a string and need no look at
// those beside them.
var asItReads = func() (is [256]bool) {
	for c := byte(' '); c < utf8.RuneSelf; c++ {
		is[c] = c != '"' && c != '\\'
	}
	return is
}()

// quoted takes a string in UTF-8 and returns what stands between its quotes; plain if
// nothing in it is escaped.
func (j *jsonPass) quoted() (between []byte, plain, ok bool) {
	text, start, i := j.text, j.i+1, j.i+1
	plain = true
	ascii := true
	for {
		for i < len(text) && asItReads[text[i]] {
			i++
		}
		if i >= len(text) {
			j.i = i
			return nil, false, false
		}
		switch c := text[i]; {
		case c == '"':
			j.i = i + 1
			between = text[start:i]
			return between, plain, ascii || utf8.Valid(between)
		case c == '\\':
			plain = false
			if j.i = i; !j.escape() {
				return nil, false, false
			}
			i = j.i
		case c >= utf8.RuneSelf:
			ascii = false
			i++
		default: // a control character
			j.i = i
			return nil, false, false
		}
	}
}

// escape takes an escaped character of a string.
func (j *jsonPass) escape() bool {
	j.i++
	if j.i >= len(j.text) {
		return false
	}
	switch j.text[j.i] {
	case '"', '\\', '/', 'b', 'f', 'n', 'r', 't':
		j.i++
		return true
	case 'u':
		j.i++
		for range 4 {
			if j.i >= len(j.text) || !isHex(j.text[j.i]) {
				return false
			}
			j.i++
		}
		return true
	}
	return false
}

func isHex(c byte) bool {
	return isDigit(c) || 'a' <= c|0x20 && c|0x20 <= 'f'
}
