package geojson

import (
	"encoding/json"

	"waterward/geo/crs"
)

// statedCRS reads the crs member that GeoJSON had before RFC 7946; nil if there
// is none or it is null.
func statedCRS(members []Member) (*crs.System, error) {
	for _, m := range members {
		if m.Key != "crs" || string(m.Raw) == "null" {
			continue
		}
		var system struct {
			Properties struct {
				Name string `json:"name"`
			} `json:"properties"`
		}
		json.Unmarshal(m.Raw, &system) // what is no name is no system either
		return crs.Parse(system.Properties.Name)
	}
	return nil, nil
}
