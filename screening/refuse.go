package screening

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
)

// refuse reports what a file says of itself that keeps it from being used: that
// it is one page of several, or in another coordinate system.
func refuse(r *geo.Reader, name string) error {
	for _, m := range slices.Concat(r.Before(), r.After()) {
		switch m.Key {
		case "exceededTransferLimit", "properties":
			var inner struct {
				Exceeded bool `json:"exceededTransferLimit"`
			}
			paged := string(m.Raw) == "true" || json.Unmarshal(m.Raw, &inner) == nil && inner.Exceeded
			if paged {
				return &geo.FileError{File: name, Wrong: "it is one page of a longer layer (exceededTransferLimit); fetch all of it"}
			}
		case "crs":
			var crs struct {
				Properties struct {
					Name string `json:"name"`
				} `json:"properties"`
			}
			json.Unmarshal(m.Raw, &crs)
			if string(m.Raw) != "null" && !isWGS84(crs.Properties.Name) {
				return &geo.FileError{File: name, Wrong: fmt.Sprintf("its crs member is %.80s; export it as WGS 84 longitude and latitude (RFC 7946)", m.Raw)}
			}
		}
	}
	return nil
}

// isWGS84 knows the names that the older GeoJSON gave to longitude and latitude
// on WGS 84.
func isWGS84(name string) bool {
	name = strings.ToUpper(name)
	return strings.HasSuffix(name, "CRS84") || strings.HasPrefix(name, "EPSG:4326") || strings.HasPrefix(name, "URN:OGC:DEF:CRS:EPSG:") && strings.HasSuffix(name, ":4326")
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
		if ok && !b.Intersects(shore) && swap(b).Intersects(geo.Window(shore, defaultRadius)) {
			faults = append(faults, &JobError{fmt.Sprintf("%s: its positions meet the high water line only with latitude and longitude swapped; one of the two files has them the wrong way round (GeoJSON puts longitude first)", l.source.File)})
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
