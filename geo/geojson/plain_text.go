package geojson

import (
	"bytes"
	"encoding/json"
	"strconv"
	"unicode/utf16"
	"unicode/utf8"
)

// plainText is a valid value as text: a string without its quotes, all else as it was
// written; empty if it is null.
func plainText(raw json.RawMessage) string {
	switch {
	case len(raw) == 0 || string(raw) == "null":
		return ""
	case raw[0] != '"':
		return string(raw)
	case bytes.IndexByte(raw, '\\') < 0:
		return string(raw[1 : len(raw)-1])
	}
	var text string
	json.Unmarshal(raw, &text) // a string, as it starts with a quote
	return text
}

// halved reports whether a valid value holds half of a character: an escaped surrogate without
// the other of its pair, which readers take for different things (RFC 8259, section 8.2), so
// that two names could be one.
func halved(raw []byte) bool {
	for i := bytes.IndexByte(raw, '\\'); i >= 0 && i < len(raw); i++ {
		if raw[i] != '\\' {
			continue
		}
		c := escapedAt(raw, i)
		if c < 0 { // a short escape
			i++
			continue
		}
		i += 5
		if !utf16.IsSurrogate(c) {
			continue
		}
		if utf16.DecodeRune(c, escapedAt(raw, i+1)) == utf8.RuneError {
			return true
		}
		i += 6
	}
	return false
}

// escapedAt is the number of an escape of four digits that starts at i; -1 if none does.
func escapedAt(raw []byte, i int) rune {
	if i+6 > len(raw) || raw[i] != '\\' || raw[i+1] != 'u' {
		return -1
	}
	c, err := strconv.ParseUint(string(raw[i+2:i+6]), 16, 16)
	if err != nil {
		return -1
	}
	return rune(c)
}
