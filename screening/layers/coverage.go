package layers

import (
	"regexp"
	"strings"
)

// inWater are areas of what lives in the water, by their names; the seagrass, the
// channels and the shores across lie there too.
var inWater = regexp.MustCompile(`coral|shellfish|oyster|clam|seagrass|sponge|hard_?bottom|live_?bottom|lease|harvest`)

// LiesInWater reports whether nothing of a layer is to be looked for on land.
func (l *Layer) LiesInWater() bool {
	area, named := strings.CutPrefix(l.Name, "areas.")
	return named && inWater.MatchString(area) || l.Name == "seagrass" || l.Name == "channels" || l.Name == "high_water"
}
