package screening

import (
	"regexp"
	"strings"
)

// inWater are areas of what lives in the water, by their names; the seagrass, the
// channels and the shores across lie there too.
var inWater = regexp.MustCompile(`coral|shellfish|oyster|clam|seagrass|sponge|hard_?bottom|live_?bottom|lease|harvest`)

// liesInWater reports whether nothing of a layer is to be looked for on land.
func (l *layer) liesInWater() bool {
	area, named := strings.CutPrefix(l.name, "areas.")
	return named && inWater.MatchString(area) || l.name == "seagrass" || l.name == "channels" || l.name == "high_water"
}
