package geojson

import (
	"bufio"
	"compress/gzip"
	"errors"
	"fmt"
	"io"

	"waterward/geo/text"
)

// recordSeparator starts each text of a GeoJSON text sequence (RFC 8142).
const recordSeparator = 0x1E

// maxText is how long, in bytes, the text of one feature may be, or what stands
// beside the features: it is held whole, with its geometry several times its
// length, and 10 million positions of 9 decimals are 300 MB.
const maxText = 512 << 20

// scanner cuts a stream into raw JSON values without decoding them. It pairs
// brackets and skips strings; whether a value is valid JSON is for its reader
// to check, so that one bad feature does not cost the features after it.
type scanner struct {
	in     *window
	most   int    // maxText, but in tests
	tape   []byte // what has been taken since taping began
	taping bool
	depth  int   // the most brackets within one another on the tape
	err    error // ends the stream
}

// newScanner unpacks gzip and drops a byte order mark.
func newScanner(r io.Reader) (*scanner, error) {
	packed := bufio.NewReaderSize(r, 1<<16)
	in := &window{in: packed}
	if magic, _ := packed.Peek(2); string(magic) == "\x1f\x8b" {
		unpacked, err := gzip.NewReader(packed)
		if err != nil {
			return nil, fmt.Errorf("not a gzip file: %w", err)
		}
		in.in = unpacked
	}
	in.fill(2) // what is shorter is no text of either
	switch {
	case in.begins("\xef\xbb\xbf"):
		in.drop(3)
	case text.IsUTF16(in.text()):
		return nil, errors.New(text.UTF16)
	}
	return &scanner{in: in, most: maxText}, nil
}

// record starts the tape anew.
func (s *scanner) record() { s.tape, s.taping, s.depth = nil, true, 0 }

// ahead returns what has been read of the stream and not taken, at least a byte.
func (s *scanner) ahead() ([]byte, error) {
	if s.err != nil {
		return nil, s.err
	}
	if err := s.in.fill(1); err != nil {
		return nil, err
	}
	return s.in.text(), nil
}

var errTooLong = errors.New("longer than can be held")

// take takes n bytes of those ahead.
func (s *scanner) take(n int) error {
	if s.taping {
		if len(s.tape)+n > s.most {
			s.err = errTooLong
			return s.err
		}
		s.tape = append(s.tape, s.in.text()[:n]...)
	}
	s.in.drop(n)
	return nil
}

// peek returns the next byte that is not white space, without taking it.
func (s *scanner) peek() (byte, error) {
	for {
		text, err := s.ahead()
		if err != nil {
			return 0, err
		}
		n := skipSpace(text, 0)
		if err := s.take(n); err != nil {
			return 0, err
		}
		if n < len(text) {
			return text[n], nil
		}
	}
}

// accept takes the next byte if it is c.
func (s *scanner) accept(c byte) bool {
	next, err := s.peek()
	return err == nil && next == c && s.take(1) == nil
}

var errTextEnds = errors.New("the text ends in the middle")

// value returns the next raw value.
func (s *scanner) value() ([]byte, error) {
	first, err := s.peek()
	if err != nil {
		return nil, err
	}
	if !s.taping {
		s.record()
		defer func() { s.taping = false }()
	}
	from := len(s.tape)
	switch first {
	case recordSeparator:
		err = errTextEnds
	case '{', '[', '"':
		err = s.closed()
	default:
		err = s.bare()
	}
	return s.tape[from:len(s.tape):len(s.tape)], err
}

// endsBare are the bytes that can follow a value without brackets or quotes.
var endsBare = [256]bool{',': true, ']': true, '}': true, ':': true, ' ': true, '\t': true, '\r': true, '\n': true, recordSeparator: true}

// bareEnd is where such a value, of which i lies within, ends, or the text.
func bareEnd(text []byte, i int) int {
	for i < len(text) && !endsBare[text[i]] {
		i++
	}
	return i
}

// bare takes a value without brackets or quotes, up to what can follow one.
func (s *scanner) bare() error {
	for {
		text, err := s.ahead()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		n := bareEnd(text, 0)
		if err := s.take(n); err != nil || n < len(text) {
			return err
		}
	}
}

// closed takes an object, an array or a string, up to what closes it.
func (s *scanner) closed() error {
	var at nesting
	for !at.closed {
		text, err := s.ahead()
		if err == io.EOF {
			return io.ErrUnexpectedEOF
		}
		if err != nil {
			return err
		}
		n, broken := at.over(text)
		if err := s.take(n); err != nil {
			return err
		}
		if broken {
			return errTextEnds
		}
	}
	s.depth = max(s.depth, at.deepest)
	return nil
}

// nesting is where in an object, an array or a string a reader stands.
type nesting struct {
	depth, deepest  int
	quoted, escaped bool
	closed          bool
}

// over goes over text of the value and returns how many bytes of it are its own;
// a record separator breaks the value off.
func (at *nesting) over(text []byte) (n int, broken bool) {
	for i, c := range text {
		switch {
		case c == recordSeparator:
			return i, true
		case at.escaped:
			at.escaped = false
		case c == '"':
			at.quoted = !at.quoted
			at.closed = !at.quoted && at.depth == 0
		case at.quoted:
			at.escaped = c == '\\'
		case c == '{', c == '[':
			at.depth++
			at.deepest = max(at.deepest, at.depth)
		case c == '}', c == ']':
			at.depth--
			at.closed = at.depth == 0
		}
		if at.closed {
			return i + 1, false
		}
	}
	return len(text), false
}
