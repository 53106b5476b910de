package layers

import (
	"bytes"
	"fmt"

	"github.com/paulmach/orb"

	"waterward/geo/geojson"
	"waterward/screening/levels"
)

// ReadOysters reads live oysters measured on pilings from the text of a file: a table
// (see [levels.ReadClumps]), or a GeoJSON layer of points with the same names as
// properties.
func ReadOysters(file string, text []byte) ([]levels.Clump, error) {
	if !levels.IsJSON(text) {
		clumps, err := levels.ReadClumps(text)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		return clumps, nil
	}
	reader, err := geojson.NewReader(file, bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	var clumps []levels.Clump
	for f, err := range reader.Features() {
		if err != nil {
			return nil, err
		}
		if f.Err != nil {
			return nil, f.Err
		}
		c := levels.Clump{Label: fmt.Sprintf("feature %d", f.Number)}
		if f.ID != "" {
			c.Label += " (id " + f.ID + ")"
		}
		at, isPoint := f.Geometry.(orb.Point)
		if !isPoint {
			return nil, fmt.Errorf("%s: %s is no point", file, c.Label)
		}
		c.Place = levels.Place{Lon: at[0], Lat: at[1]}
		if err := c.Describe(f.Text); err != nil {
			return nil, fmt.Errorf("%s: %s: %w", file, c.Label, err)
		}
		clumps = append(clumps, c)
	}
	if len(clumps) == 0 {
		return nil, fmt.Errorf("%s: it holds no points", file)
	}
	return clumps, nil
}
