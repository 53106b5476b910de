package geo

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// recordSeparator starts each text of a GeoJSON text sequence (RFC 8142).
const recordSeparator = 0x1E

// scanner cuts a stream into raw JSON values without decoding them. It pairs
// brackets and skips strings; whether a value is valid JSON is for its reader
// to check, so that one bad feature does not cost the features after it.
type scanner struct {
	in     *bufio.Reader
	tape   []byte // what next has taken since taping began
	taping bool
}

func (s *scanner) next() (byte, error) {
	c, err := s.in.ReadByte()
	if err == nil && s.taping {
		s.tape = append(s.tape, c)
	}
	return c, err
}

// back gives the byte just taken back.
func (s *scanner) back() error {
	if s.taping {
		s.tape = s.tape[:len(s.tape)-1]
	}
	return s.in.UnreadByte()
}

// newScanner unpacks gzip and drops a byte order mark.
func newScanner(r io.Reader) (*scanner, error) {
	in := bufio.NewReaderSize(r, 1<<16)
	if magic, _ := in.Peek(2); len(magic) == 2 && magic[0] == 0x1f && magic[1] == 0x8b {
		unpacked, err := gzip.NewReader(in)
		if err != nil {
			return nil, fmt.Errorf("not a gzip file: %w", err)
		}
		in = bufio.NewReaderSize(unpacked, 1<<16)
	}
	if mark, _ := in.Peek(3); bytes.Equal(mark, []byte("\xef\xbb\xbf")) {
		in.Discard(3)
	}
	return &scanner{in: in}, nil
}

// peek returns the next byte that is not white space, without taking it.
func (s *scanner) peek() (byte, error) {
	for {
		c, err := s.next()
		if err != nil {
			return 0, err
		}
		if c != ' ' && c != '\t' && c != '\r' && c != '\n' {
			return c, s.back()
		}
	}
}

// accept takes the next byte if it is c.
func (s *scanner) accept(c byte) bool {
	next, err := s.peek()
	if err != nil || next != c {
		return false
	}
	s.next()
	return true
}

var errTextEnds = errors.New("the text ends in the middle")

// inside returns the next byte of a value that has begun and must go on.
func (s *scanner) inside() (byte, error) {
	c, err := s.next()
	switch {
	case err == io.EOF:
		return 0, io.ErrUnexpectedEOF
	case err == nil && c == recordSeparator:
		return 0, errors.Join(errTextEnds, s.back())
	}
	return c, err
}

// value appends the next raw value to dst.
func (s *scanner) value(dst []byte) ([]byte, error) {
	first, err := s.peek()
	if err != nil {
		return dst, err
	}
	switch first {
	case '{', '[':
		return s.bracketed(dst)
	case '"':
		s.next()
		return s.text(append(dst, '"'))
	case recordSeparator:
		return dst, errTextEnds
	}
	for {
		c, err := s.next()
		if err == io.EOF {
			return dst, nil
		}
		if err != nil {
			return dst, err
		}
		switch c {
		case ',', ']', '}', ':', ' ', '\t', '\r', '\n', recordSeparator:
			return dst, s.back()
		}
		dst = append(dst, c)
	}
}

// bracketed appends an object or array, up to the bracket that closes it.
func (s *scanner) bracketed(dst []byte) ([]byte, error) {
	depth := 0
	for {
		c, err := s.inside()
		if err != nil {
			return dst, err
		}
		dst = append(dst, c)
		switch c {
		case '"':
			if dst, err = s.text(dst); err != nil {
				return dst, err
			}
		case '{', '[':
			depth++
		case '}', ']':
			if depth--; depth == 0 {
				return dst, nil
			}
		}
	}
}

// text appends the rest of a string whose opening quote has been taken.
func (s *scanner) text(dst []byte) ([]byte, error) {
	escaped := false
	for {
		c, err := s.inside()
		if err != nil {
			return dst, err
		}
		dst = append(dst, c)
		switch {
		case escaped:
			escaped = false
		case c == '\\':
			escaped = true
		case c == '"':
			return dst, nil
		}
	}
}

// Member is one member of a JSON object, its value as it was written.
type Member struct {
	Key string
	Raw json.RawMessage
	// start and end are where Raw lies in the object's text.
	start, end int
}

// members splits the text of one valid JSON object into its members, in order.
func members(object []byte) ([]Member, error) {
	if len(object) == 0 || object[0] != '{' {
		return nil, errors.New("not a JSON object")
	}
	var out []Member
	i := skipSpace(object, 1)
	for i < len(object) && object[i] != '}' {
		keyEnd := valueEnd(object, i)
		var key string
		if err := json.Unmarshal(object[i:keyEnd], &key); err != nil {
			return nil, err
		}
		i = skipSpace(object, skipSpace(object, keyEnd)+1) // past the colon
		end := valueEnd(object, i)
		out = append(out, Member{Key: key, Raw: object[i:end], start: i, end: end})
		i = skipSpace(object, end)
		if i < len(object) && object[i] == ',' {
			i = skipSpace(object, i+1)
		}
	}
	return out, nil
}

func skipSpace(b []byte, i int) int {
	for i < len(b) && (b[i] == ' ' || b[i] == '\t' || b[i] == '\r' || b[i] == '\n') {
		i++
	}
	return i
}

// valueEnd returns where the value starting at i ends, in valid JSON.
func valueEnd(b []byte, i int) int {
	depth := 0
	for i < len(b) {
		switch b[i] {
		case '"':
			for i++; i < len(b) && b[i] != '"'; i++ {
				if b[i] == '\\' {
					i++
				}
			}
			if depth == 0 {
				return i + 1
			}
		case '{', '[':
			depth++
		case '}', ']':
			if depth == 0 {
				return i // the end of a scalar
			}
			if depth--; depth == 0 {
				return i + 1
			}
		case ',', ':', ' ', '\t', '\r', '\n':
			if depth == 0 {
				return i
			}
		}
		i++
	}
	return i
}
