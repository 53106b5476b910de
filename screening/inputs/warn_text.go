package inputs

import (
	"fmt"

	"waterward/geo/geojson"
	"waterward/screening/job"
)

// warnings are what of a file is no fault and may still mislead.
func warnings(role, file string, features, usable int, r *geojson.Reader) []string {
	var out []string
	if text := Partial(r, file, features); text != "" {
		out = append(out, role+": "+text)
	}
	if grain := r.Grain(); usable > 0 && grain > Coarse {
		out = append(out, fmt.Sprintf("%s: a feature of %s is written with %s, so its positions may be %s off: export it with more", role, file, job.Count(r.Decimals(), "decimal"), job.FeetText(grain)))
	}
	return out
}
