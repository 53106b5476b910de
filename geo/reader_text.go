package geo

import "io"

// ReadFeature reads the first feature of a text as a [Reader] does that of a file, without
// the room that a stream needs.
func ReadFeature(file string, text []byte) (*Feature, error) {
	return readerOf(file, &scanner{in: &window{buf: text, err: io.EOF}, most: maxText}).Next()
}
