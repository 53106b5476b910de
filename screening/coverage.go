package screening

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"waterward/rules"
)

// coverage is what a layer answers for at a site.
type coverage struct {
	reach float64  // how far round the footprint it is complete: the search radius, or less where its surveyed area ends sooner
	lacks []string // why something of it may be missing all the same
	why   string   // why it does not answer here at all; empty if it does
}

// lacking is a value of a layer of which something may be missing: what is missing could
// make it worst.
func (c coverage) lacking(v rules.Value, worst float64) rules.Value {
	for _, says := range c.lacks {
		v.Also = append(v.Also, rules.Also{Number: worst, Says: says})
	}
	return v
}

// doubted is a value that what is missing could make anything.
func (c coverage) doubted(v rules.Value) rules.Value {
	for _, says := range c.lacks {
		v = doubting(v, says, 0)
	}
	return v
}

// surveyedSlack is how far waterward of mean high water, in metres (5 ft), the surveyed
// area of what lives in the water may end and still end at the shore (common practice, no
// source: surveys of the two seldom meet exactly).
const surveyedSlack = 5 * foot

// inWater are areas of what lives in the water, by their names; the seagrass and the
// channels lie there too.
var inWater = regexp.MustCompile(`coral|shellfish|oyster|clam|seagrass|sponge|hard_?bottom|live_?bottom|lease|harvest`)

// liesInWater reports whether nothing of a layer is to be looked for on land.
func (l *layer) liesInWater() bool {
	area, named := strings.CutPrefix(l.name, "areas.")
	return named && inWater.MatchString(area) || l.name == "seagrass" || l.name == "channels"
}

// covered says what a layer answers for round the footprint.
func (s *site) covered(l *layer) coverage {
	if v, bad := s.incomplete(); bad {
		return coverage{why: v.Unknown}
	}
	if why := s.defect(l); why != "" {
		return coverage{why: why}
	}
	on := coverage{reach: s.radius, lacks: l.incomplete}
	switch {
	case l.surveyed != nil:
		on.reach, on.why = s.surveyed(l)
	case l.source.None:
	case !l.reaches(s):
		on.why = "the layer of " + l.title + " does not reach this site"
	default:
		on.lacks = append(on.lacks[:len(on.lacks):len(on.lacks)],
			fmt.Sprintf("no surveyed area is stated for %s, so that all of it is mapped here is only assumed: state where it was surveyed", l.title))
	}
	return on
}

// reaches reports whether anything of the layer lies as near as is looked.
func (l *layer) reaches(s *site) bool {
	b, ok := l.geo.Bound()
	return ok && b.Intersects(s.window)
}

// surveyed is how far round the footprint the surveyed area of a layer goes, or why the
// site is not in it.
func (s *site) surveyed(l *layer) (reach float64, why string) {
	depth, inside := s.fp.DepthInside(l.surveyed, s.near(l.surveyed), nil, 0)
	if l.liesInWater() && !(depth >= s.radius) {
		if s.faced == nil {
			s.faced, _ = s.near(s.layers.layer("high_water").geo).FaceWater(s.waterEvidence("high_water"))
		}
		depth, inside = s.fp.DepthInside(l.surveyed, s.near(l.surveyed), s.faced, surveyedSlack)
	}
	shift := s.datumShift(l.surveyedOn)
	switch {
	case inside && depth > shift:
		return math.Min(s.radius, depth-shift), ""
	case inside:
		return 0, "the site lies " + feetText(depth) + " inside the surveyed area of " + l.title + ", which is on another horizontal datum and may lie " + feetText(shift) + " off"
	}
	own, found := l.geo.Bound()
	if survey, ok := l.surveyed.Bound(); found && ok && !survey.Intersects(own) {
		return 0, "the site is not inside the surveyed area of " + l.title + ", which lies apart from the layer too: have it surveyed, or, if the two should meet, see to their coordinate systems (crs in the job holds for both)"
	}
	return 0, "the site is not inside the surveyed area of " + l.title + "; have it surveyed"
}
