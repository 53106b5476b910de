package geo

import "io"

// ReadFeature reads the first feature of a text as a [Reader] does that of a file, without
// the room that a stream needs, in the system given or, if that is nil, as the text says.
func ReadFeature(file string, text []byte, crs *CRS) (*Feature, error) {
	r := readerOf(file, &scanner{in: &window{buf: text, err: io.EOF}, most: maxText})
	if crs != nil {
		r.In(crs)
	}
	return r.Next()
}
