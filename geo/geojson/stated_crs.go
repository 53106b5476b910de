package geojson

import (
	"encoding/json"
	"errors"

	"waterward/geo/crs"
)

// statedCRS reads the crs member that GeoJSON had before RFC 7946; nil if there
// is none or it is null. Two of them, or two names in one, are an error.
func statedCRS(of []Member) (*crs.System, error) {
	raw, twice := valueOf(of, "crs")
	properties, again := valueOf(inner(raw), "properties")
	name, once := valueOf(inner(properties), "name")
	switch {
	case twice || again || once:
		return nil, errors.New("what it says stands there twice: keep one, as readers differ on which of them counts")
	case len(raw) == 0 || string(raw) == "null":
		return nil, nil
	}
	return crs.Parse(plainText(name))
}

// inner are the members of a valid value; none of what is no object.
func inner(raw json.RawMessage) []Member {
	all, _ := members(raw)
	return all
}

// valueOf is the value of a member, and whether there is another of its name.
func valueOf(all []Member, key string) (raw json.RawMessage, twice bool) {
	for _, m := range all {
		if m.Key == key {
			raw, twice = m.Raw, raw != nil
		}
		if twice {
			break
		}
	}
	return raw, twice
}
