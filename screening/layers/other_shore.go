package layers

import (
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/geojson"
	"waterward/screening/job"
)

// leftShore are lines of a shoreline product that the job leaves out of mean high water
// and that are shore all the same: marsh edges, walls. Where one lies near, the mean high
// water line is not all of the shore.
type leftShore struct {
	builder geo.LayerBuilder
	Lines   *geo.Layer
	Kinds   []string // what each is called
}

var (
	// noShore are lines that no shore is.
	noShore = ofWords(`(mean )?low ?water`, `mlwl?\d*`, `(mean )?lower low ?water`, `mllwl?\d*`, `mean (sea|tide) level`, `msl\d*`, `mtl\d*`,
		`contours?`, `isobaths?`, `depth( curves?)?`, `(data|survey) limits?`, `limits? of (the )?(source )?(data|survey)`, `data ?limit`,
		`breakers?`, `piers?`, `docks?`, `groins?`, `jetty`, `jetties`, `breakwaters?`, `centerlines?`, `centrelines?`)
	// someShore are words by which a line is a shore whatever a job calls it.
	someShore = ofWords(`apparent`, `marsh`, `mangroves?`, `swamp`, `vegetation`, `banks?`, `shore(line)?s?`, `bulkheads?`, `sea ?walls?`, `rip ?rap`,
		`revetments?`, `natural`, `man ?made`, `high ?water`, `beach(es)?`, `bluffs?`, `canals?`)
)

// isShore reports whether what only leaves out for a value is shore: unless its words, or
// the job by name, say that it is none.
func isShore(o *job.Only, value string) bool {
	words := Spaced(value)
	return !noShore.MatchString(words) && (someShore.MatchString(words) || !job.HasWord(o.Others, job.OneWord(value)))
}

// leaveShoreOut keeps a line that is left out of mean high water and is shore.
func (l *Layer) leaveShoreOut(f *geojson.Feature, value string) {
	if l.Name != "high_water" || f.Err != nil || !isShore(l.Source.Only, value) || l.places != nil && !l.places.Meet(f.Bound()) {
		return
	}
	var lines []orb.LineString
	switch g := f.Geometry.(type) {
	case orb.LineString, orb.MultiLineString:
		lines = LinesOf(g)
	case orb.Polygon, orb.MultiPolygon:
		for _, polygon := range AreaOf(g) {
			for _, ring := range polygon {
				lines = append(lines, orb.LineString(ring))
			}
		}
	}
	if lines = slices.DeleteFunc(slices.Clone(lines), IsPoint); len(lines) > 0 {
		l.Shore.builder.AddLine(lines...)
		l.Shore.Kinds = append(l.Shore.Kinds, value)
	}
}
