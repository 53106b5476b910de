package screening

import (
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/geojson"
)

// leftShore are lines of a shoreline product that the job leaves out of mean high water
// and that are shore all the same: marsh edges, walls. Where one lies near, the mean high
// water line is not all of the shore.
type leftShore struct {
	builder geo.LayerBuilder
	lines   *geo.Layer
	kinds   []string // what each is called
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
func isShore(o *Only, value string) bool {
	words := spaced(value)
	return !noShore.MatchString(words) && (someShore.MatchString(words) || !hasWord(o.Others, oneWord(value)))
}

// leaveShoreOut keeps a line that is left out of mean high water and is shore.
func (l *layer) leaveShoreOut(f *geojson.Feature, value string) {
	if l.name != "high_water" || f.Err != nil || !isShore(l.source.Only, value) || l.places != nil && !l.places.Meet(f.Bound()) {
		return
	}
	var lines []orb.LineString
	switch g := f.Geometry.(type) {
	case orb.LineString, orb.MultiLineString:
		lines = linesOf(g)
	case orb.Polygon, orb.MultiPolygon:
		for _, polygon := range areaOf(g) {
			for _, ring := range polygon {
				lines = append(lines, orb.LineString(ring))
			}
		}
	}
	if lines = slices.DeleteFunc(slices.Clone(lines), isPoint); len(lines) > 0 {
		l.shore.builder.AddLine(lines...)
		l.shore.kinds = append(l.shore.kinds, value)
	}
}
