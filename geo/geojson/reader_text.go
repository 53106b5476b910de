package geojson

import (
	"io"

	"waterward/geo/crs"
)

// ReadFeature reads the first feature of a text as a [Reader] does that of a file, without
// the room that a stream needs, in the system given or, if that is nil, as the text says.
func ReadFeature(file string, text []byte, system *crs.System) (*Feature, error) {
	r := readerOf(file, &scanner{in: &window{buf: text, err: io.EOF}, most: maxText})
	if system != nil {
		r.In(system)
	}
	return r.Next()
}
