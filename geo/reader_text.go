package geo

import (
	"io"

	"github.com/paulmach/orb"
)

// ReadFeature reads the first feature of a text as a [Reader] does that of a file, without
// the room that a stream needs.
func ReadFeature(file string, text []byte) (*Feature, error) {
	r := &Reader{file: file, scan: &scanner{in: &window{buf: text, err: io.EOF}, most: maxText}, stray: orb.Bound{Min: orb.Point{1, 1}, Max: orb.Point{-1, -1}}}
	return r.Next()
}
