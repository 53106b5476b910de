package inputs

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"waterward/geo/geojson"
	"waterward/screening/job"
)

// Refuse reports what a file says of itself that keeps it from being used where half of
// it would pass for the whole: that it is one page of several.
func Refuse(r *geojson.Reader, name string) error {
	if sign := PageSign(r); sign != "" {
		return &geojson.FileError{File: name, Wrong: "it is one page of a longer layer (" + sign + "); fetch all of it"}
	}
	return nil
}

// Partial says by what a file of so many features seems to be a part of a longer one;
// empty if by nothing.
func Partial(r *geojson.Reader, file string, features int) string {
	if sign := PageSign(r); sign != "" {
		return fmt.Sprintf("%s is one page of a longer layer (%s): fetch all of it", file, sign)
	}
	for _, key := range []string{"numberMatched", "totalFeatures"} {
		if all, ok := countStated(r, key); ok && all > features {
			return fmt.Sprintf("%s has %s and says of %d that they match (%s): fetch all of it", file, job.Count(features, "feature"), all, key)
		}
	}
	if slices.Contains(pageSizes, features) {
		return fmt.Sprintf("%s has exactly %d features, the size of a page: make sure that it is the whole layer", file, features)
	}
	return ""
}

// PageSign is by what the members of a collection say that more is to come: those
// of feature services and of the OGC's two services of features. Empty if none does.
func PageSign(r *geojson.Reader) string {
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
