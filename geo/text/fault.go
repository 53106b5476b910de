package text

import (
	"bytes"
	"fmt"
	"unicode/utf8"
)

// UTF16 is what is wrong with a text in UTF-16.
const UTF16 = "its text is UTF-16; save it as UTF-8"

// IsUTF16 reports whether a text starts as one in UTF-16 does: with its byte order mark, or
// with a character of ASCII.
func IsUTF16(text []byte) bool {
	if bytes.HasPrefix(text, []byte("\xff\xfe")) || bytes.HasPrefix(text, []byte("\xfe\xff")) {
		return true
	}
	if len(text) < 2 || text[0] != 0 && text[1] != 0 {
		return false
	}
	other := text[0] + text[1]
	return other >= '\t' && other < utf8.RuneSelf
}

// Fault says what of a whole file is no text in UTF-8, at which byte, and what to do; empty
// if nothing is.
func Fault(text []byte) string {
	if IsUTF16(text) {
		return UTF16
	}
	i := NotUTF8(text)
	if nul := bytes.IndexByte(text, 0); nul >= 0 && (i < 0 || nul < i) {
		return fmt.Sprintf("the byte at offset %d is NUL (0x00), which no text holds; save it as UTF-8 text", nul)
	}
	if i < 0 {
		return ""
	}
	return Bad(int64(i), text[i]) + "; save it as UTF-8"
}

// Bad is what is said of a byte that is no UTF-8, by its offset in the file.
func Bad(offset int64, c byte) string {
	return fmt.Sprintf("the byte at offset %d (0x%02X) is not UTF-8", offset, c)
}

// NotUTF8 is the index of the first byte that is not UTF-8 (RFC 3629); -1 if there is none.
func NotUTF8(text []byte) int {
	if utf8.Valid(text) {
		return -1
	}
	for i := 0; ; {
		c, size := utf8.DecodeRune(text[i:])
		if c == utf8.RuneError && size <= 1 {
			return i
		}
		i += size
	}
}
