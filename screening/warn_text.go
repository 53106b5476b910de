package screening

import (
	"fmt"

	"waterward/geo/geojson"
)

// warnings are what of a file is no fault and may still mislead.
func warnings(role, file string, features, usable int, r *geojson.Reader) []string {
	var out []string
	if text := partial(r, file, features); text != "" {
		out = append(out, role+": "+text)
	}
	if grain := r.Grain(); usable > 0 && grain > coarse {
		out = append(out, fmt.Sprintf("%s: a feature of %s is written with %s, so its positions may be %s off: export it with more", role, file, number(r.Decimals(), "decimal"), feetText(grain)))
	}
	return out
}
