package screening

import (
	"fmt"

	"github.com/paulmach/orb"
)

// areaOf returns a geometry as an area, nil if it is none.
func areaOf(g orb.Geometry) orb.MultiPolygon {
	switch g := g.(type) {
	case orb.Polygon:
		return orb.MultiPolygon{g}
	case orb.MultiPolygon:
		return g
	}
	return nil
}

// linesOf returns the lines of a geometry, nil if it is none.
func linesOf(g orb.Geometry) orb.MultiLineString {
	switch g := g.(type) {
	case orb.LineString:
		return orb.MultiLineString{g}
	case orb.MultiLineString:
		return g
	}
	return nil
}

// place names a feature.
func place(number int, id string) string {
	text := fmt.Sprintf("feature %d", number)
	if id != "" {
		text += idMark + cut(id) + ")"
	}
	return text
}

// cut is as much of a text as is shown.
func cut(text string) string {
	if runes := []rune(text); len(runes) > longestExample {
		return string(runes[:longestExample]) + "..."
	}
	return text
}

// idMark stands before the id in the place of a feature.
const idMark = " (id "

// longestExample is how much of a value is shown, in characters.
const longestExample = 40
