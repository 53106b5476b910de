package layers

import (
	"fmt"

	"github.com/paulmach/orb"
)

// AreaOf returns a geometry as an area, nil if it is none.
func AreaOf(g orb.Geometry) orb.MultiPolygon {
	switch g := g.(type) {
	case orb.Polygon:
		return orb.MultiPolygon{g}
	case orb.MultiPolygon:
		return g
	}
	return nil
}

// LinesOf returns the lines of a geometry, nil if it is none.
func LinesOf(g orb.Geometry) orb.MultiLineString {
	switch g := g.(type) {
	case orb.LineString:
		return orb.MultiLineString{g}
	case orb.MultiLineString:
		return g
	}
	return nil
}

// NameOf names a feature.
func NameOf(number int, id string) string {
	text := fmt.Sprintf("feature %d", number)
	if id != "" {
		text += IdMark + Short(id) + ")"
	}
	return text
}

// Short is as much of a text as is shown.
func Short(text string) string {
	if runes := []rune(text); len(runes) > longestExample {
		return string(runes[:longestExample]) + "..."
	}
	return text
}

// IdMark stands before the id in the place of a feature.
const IdMark = " (id "

// longestExample is how much of a value is shown, in characters.
const longestExample = 40
