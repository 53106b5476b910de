package screening

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"waterward/screening/sketchtest"
)

// change is what a case does to the sandbox.
type change = func(*sandbox)

func several(changes ...change) change {
	return func(s *sandbox) {
		for _, c := range changes {
			c(s)
		}
	}
}

// gone as a value takes a property or a setting away.
const gone = "gone"

func putAll(into map[string]string, pairs []string) {
	for i := 0; i < len(pairs); i += 2 {
		if into[pairs[i]] = pairs[i+1]; pairs[i+1] == gone {
			delete(into, pairs[i])
		}
	}
}

// reef changes what the breakwater states; values are JSON.
func reef(pairs ...string) change { return func(s *sandbox) { putAll(s.reef, pairs) } }

// layerSays changes what the job says of a layer; values are YAML.
func layerSays(name string, pairs ...string) change {
	return func(s *sandbox) { putAll(s.layers[name], pairs) }
}

// eachLayer says the same of every layer.
func eachLayer(pairs ...string) change {
	return func(s *sandbox) {
		for _, settings := range s.layers {
			putAll(settings, pairs)
		}
	}
}

func proposalsSay(pairs ...string) change { return func(s *sandbox) { putAll(s.source, pairs) } }

func without(layer string) change { return func(s *sandbox) { delete(s.layers, layer) } }

// features are all that a file holds.
func features(file string, of ...string) change { return func(s *sandbox) { s.Sketch[file] = of } }

// also is what a file holds besides.
func also(file string, of ...string) change {
	return func(s *sandbox) {
		s.Sketch[file] = append(s.Sketch[file][:len(s.Sketch[file]):len(s.Sketch[file])], of...)
	}
}

// fileSays is a whole file.
func fileSays(file string, of string) change { return func(s *sandbox) { s.whole[file] = of } }

// drawnAt draws the breakwater as a rectangle.
func drawnAt(x0, y0, x1, y1 float64) change {
	return func(s *sandbox) {
		s.drawn = func(properties string) string { return sketchtest.Rectangle(properties, x0, y0, x1, y1) }
	}
}

// inParts draws the breakwater as rectangles from y 3 to 9 between pairs of x.
func inParts(x ...float64) change { return partsAt(3, x...) }

// partsAt does so 6 ft wide from y on.
func partsAt(y float64, x ...float64) change {
	return func(s *sandbox) {
		s.drawn = func(properties string) string {
			var rings []string
			for i := 0; i < len(x); i += 2 {
				_, ring, _ := strings.Cut(sketchtest.Rectangle("", x[i], y, x[i+1], y+6), `"coordinates":`)
				rings = append(rings, strings.TrimSuffix(ring, "}}"))
			}
			return fmt.Sprintf(`{"type":"Feature","properties":{%s},"geometry":{"type":"MultiPolygon","coordinates":[%s]}}`, properties, strings.Join(rings, ","))
		}
	}
}

// beside is another proposal, b, that states what the breakwater does and more.
func beside(x0, y0, x1, y1 float64, pairs ...string) change {
	return func(s *sandbox) {
		states := map[string]string{}
		for name, value := range s.reef {
			states[name] = value
		}
		putAll(states, append([]string{"id", `"b"`}, pairs...))
		also("proposals", sketchtest.Rectangle(jsonMembers(states), x0, y0, x1, y1))(s)
	}
}

// high and low are stretches of the near tidal lines as the sandbox has them, less what
// the words given say otherwise, such as their accuracy.
func high(more string, x0, x1 float64) string {
	return straight(`"side":"water_left","elevation_ft":0.5,"elevation_accuracy_ft":0.1`+more, x0, x1, 0)
}

func low(more string, x0, x1 float64) string {
	return straight(`"elevation_ft":-3.5,"elevation_accuracy_ft":0.1`+more, x0, x1, 10)
}

// nearHigh and nearLow put other lines in the place of the near ones.
func nearHigh(lines ...string) change {
	return func(s *sandbox) { s.Sketch["high"] = append(lines, s.Sketch["high"][1]) }
}

func nearLow(lines ...string) change {
	return func(s *sandbox) { s.Sketch["low"] = append(lines, s.Sketch["low"][1]) }
}

// straight is a straight line at y with a vertex every 100 ft and at its ends.
func straight(properties string, x0, x1, y float64) string {
	corners := [][2]float64{{x0, y}}
	for _, c := range sketchtest.Along(y) {
		if c[0] > x0 && c[0] < x1 {
			corners = append(corners, c)
		}
	}
	return sketchtest.Shape("LineString", properties, append(corners, [2]float64{x1, y})...)
}

var withDecimals = regexp.MustCompile(`-?\d+\.\d+`)

// digits writes the positions of a feature with so many decimals, less what stands behind
// them.
func digits(feature string, places int, behind string) string {
	head, tail, _ := strings.Cut(feature, `"coordinates":`)
	return head + `"coordinates":` + withDecimals.ReplaceAllStringFunc(tail, func(number string) string {
		value, _ := strconv.ParseFloat(number, 64)
		return strconv.FormatFloat(value, 'f', places, 64) + behind
	})
}

// cutFile does so with all features of a file.
func cutFile(file string, places int, behind string) change {
	return func(s *sandbox) {
		for i, f := range s.Sketch[file] {
			s.Sketch[file][i] = digits(f, places, behind)
		}
	}
}

// asPoint is a line of one position as a point.
func asPoint(line string) string {
	return strings.NewReplacer(`"LineString"`, `"Point"`, `"coordinates":[[`, `"coordinates":[`, "]]}}", "]}}").Replace(line)
}

// threeD gives every position a height.
func threeD(feature string) string {
	return strings.ReplaceAll(feature, "],[", ",1.5],[")
}

// wholeFile is a file of features with members of its own behind them.
func wholeFile(members string, features ...string) string {
	return `{"type":"FeatureCollection","features":[` + strings.Join(features, ",") + "]" + members + "}"
}
