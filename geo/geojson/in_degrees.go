package geojson

import (
	"encoding/json"
	"fmt"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
)

// CRSMember is the member that names a system, as GeoJSON had it before RFC 7946; none for
// WGS 84, which needs no word.
func CRSMember(system *crs.System) []Member {
	if system.IsDegrees() && system.Datum == crs.WGS84 {
		return nil
	}
	return []Member{{Key: "crs", Raw: json.RawMessage(fmt.Sprintf(`{"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::%d"}}`, system.Code))}}
}

// told is how many steps of a degree positions are written with: 9 decimals.
const told = 1e9

// InDegrees returns the feature with its positions as longitude and latitude on its own
// datum, whatever that is: of several, one collection can name none. A feature that cannot
// be used, or is in degrees, stays as it is.
func (f *Feature) InDegrees() *Feature {
	if f.Geometry == nil || len(f.raw) == 0 || f.crs.IsDegrees() {
		return f
	}
	all, err := members(f.raw)
	if err != nil {
		return f
	}
	var kept []Member
	for _, m := range all {
		switch {
		case m.Key == "crs":
			continue
		case m.Key == "geometry":
			positions, _ := json.Marshal(orb.Round(orb.Clone(f.Geometry), told)) // finite, as they were read
			m.Raw = json.RawMessage(fmt.Sprintf(`{"type": %q, "coordinates": %s}`, f.Geometry.GeoJSONType(), positions))
		}
		kept = append(kept, m)
	}
	made := *f
	made.raw, made.crs = object(kept), crs.DegreesOn(f.crs.Datum)
	return &made
}
