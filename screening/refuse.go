package screening

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/geojson"
)

// refuse reports what a file says of itself that keeps it from being used where half of
// it would pass for the whole: that it is one page of several.
func refuse(r *geojson.Reader, name string) error {
	if sign := pageSign(r); sign != "" {
		return &geojson.FileError{File: name, Wrong: "it is one page of a longer layer (" + sign + "); fetch all of it"}
	}
	return nil
}

// partial says by what a file of so many features seems to be a part of a longer one;
// empty if by nothing.
func partial(r *geojson.Reader, file string, features int) string {
	if sign := pageSign(r); sign != "" {
		return fmt.Sprintf("%s is one page of a longer layer (%s): fetch all of it", file, sign)
	}
	for _, key := range []string{"numberMatched", "totalFeatures"} {
		if all, ok := countStated(r, key); ok && all > features {
			return fmt.Sprintf("%s has %s and says of %d that they match (%s): fetch all of it", file, number(features, "feature"), all, key)
		}
	}
	if slices.Contains(pageSizes, features) {
		return fmt.Sprintf("%s has exactly %d features, the size of a page: make sure that it is the whole layer", file, features)
	}
	return ""
}

// pageSign is by what the members of a collection say that more is to come: those
// of feature services and of the OGC's two services of features. Empty if none does.
func pageSign(r *geojson.Reader) string {
	for _, m := range slices.Concat(r.Earlier(), r.Before(), r.After()) {
		switch m.Key {
		case "exceededTransferLimit", "properties":
			var inner struct {
				Exceeded json.RawMessage `json:"exceededTransferLimit"`
			}
			if isTrue(m.Raw) || json.Unmarshal(m.Raw, &inner) == nil && isTrue(inner.Exceeded) {
				return "exceededTransferLimit"
			}
		case "links":
			var links []struct {
				Rel string `json:"rel"`
			}
			json.Unmarshal(m.Raw, &links) // what is no list of links says nothing
			for _, link := range links {
				if strings.EqualFold(link.Rel, "next") {
					return `a link to the "next"`
				}
			}
		}
	}
	matched, known := countStated(r, "numberMatched")
	if here, also := countStated(r, "numberReturned"); known && also && matched > here {
		return fmt.Sprintf("numberReturned %d of numberMatched %d", here, matched)
	}
	return ""
}

// isTrue reports whether a value is true, in any of the ways in which servers write it.
func isTrue(raw json.RawMessage) bool {
	switch strings.ToLower(strings.Trim(string(raw), `" `)) {
	case "", "false", "0", "no", "f", "n", "null", "{}", "[]":
		return false
	}
	return !strings.HasPrefix(string(raw), "{") && !strings.HasPrefix(string(raw), "[")
}

// countStated is the whole number that a member of the collection states; false if none.
func countStated(r *geojson.Reader, key string) (int, bool) {
	for _, m := range slices.Concat(r.Earlier(), r.Before(), r.After()) {
		if n, err := strconv.Atoi(strings.Trim(string(m.Raw), `" `)); m.Key == key && err == nil {
			return n, true
		}
	}
	return 0, false
}

// refusals are why the layers cannot be used together.
func (m *mapped) refusals() []error {
	return slices.DeleteFunc([]error{m.strayed(), m.swapped(), m.upsideDown(), m.oneTidalLine()}, func(err error) bool { return err == nil })
}

// strayed refuses a file none of whose positions are longitude and latitude
// although it does not say what they are.
func (m *mapped) strayed() error {
	var faults []error
	for _, l := range m.all() {
		for _, file := range l.files {
			if file.usable == 0 && !file.stray.IsEmpty() {
				faults = append(faults, &geojson.FileError{File: file.name, Wrong: strayText(l.name, file.stray, m.extent())})
			}
		}
	}
	return joinErrors(faults)
}

// strayedSurvey refuses a file of surveyed areas whose positions are no longitude and
// latitude although it does not say what they are; the crs of a job holds for its layer
// too.
func strayedSurvey(file string, stray orb.Bound) error {
	return &geojson.FileError{File: file, Wrong: strayPlace(stray) + "; give it a crs member, or export it as longitude and latitude; if its layer is in the same system, say so by crs: in the job, which holds for both"}
}

// extent is the bound of all layers, in degrees.
func (m *mapped) extent() orb.Bound {
	out := orb.Bound{Min: orb.Point{1, 1}, Max: orb.Point{-1, -1}}
	for _, l := range m.all() {
		if b, ok := l.geo.Bound(); ok {
			out = out.Union(b)
		}
	}
	return out
}

// mostSystems is how many coordinate systems a message proposes.
const mostSystems = 6

func strayText(name string, stray, near orb.Bound) string {
	text := strayPlace(stray) + "; "
	flag := fmt.Sprintf("find out and give it with --crs %s=EPSG:n, or crs: in the job", name)
	fits := fitting(stray, near)
	switch {
	case near.IsEmpty():
		return text + flag
	case fits == "":
		return text + "as none of the systems known here would it meet the other layers; " + flag
	}
	return text + "it would meet the other layers as " + fits + "; " + flag
}

// strayPlace says where positions lie that can be no degrees.
func strayPlace(stray orb.Bound) string {
	return fmt.Sprintf("its coordinates (x %.0f to %.0f, y %.0f to %.0f) are no longitude and latitude, and it does not say what they are",
		stray.Min[0], stray.Max[0], stray.Min[1], stray.Max[1])
}

// fitting lists the systems in which such positions would meet a place.
func fitting(stray, near orb.Bound) string {
	var fits []string
	for _, c := range crs.Meeting(stray, near) {
		fits = append(fits, c.String())
	}
	if len(fits) > mostSystems {
		fits = append(fits[:mostSystems], "and others")
	}
	return strings.Join(fits, ", ")
}

// swapped refuses a layer that meets the high water line only if its latitude
// and longitude change places.
func (m *mapped) swapped() error {
	shore, ok := m.layer("high_water").geo.Bound()
	if !ok {
		return nil
	}
	var faults []error
	check := func(l *layer) {
		b, ok := l.geo.Bound()
		if ok && !b.Intersects(shore) && swap(b).Intersects(crs.Window(shore, defaultRadius)) {
			faults = append(faults, &JobError{fmt.Sprintf("%s: its positions meet the high water line only with latitude and longitude swapped; one of the two layers has them the wrong way round (GeoJSON puts longitude first)", strings.Join(l.source.Files, ", "))})
		}
	}
	for _, name := range []string{"low_water", "shoreline", "seagrass", "wetlands", "channels", "riparian", "parcels"} {
		if l := m.layer(name); l != nil {
			check(l)
		}
	}
	for _, l := range m.areas {
		check(l)
	}
	return joinErrors(faults)
}

func swap(b orb.Bound) orb.Bound {
	return orb.Bound{Min: orb.Point{b.Min[1], b.Min[0]}, Max: orb.Point{b.Max[1], b.Max[0]}}
}
