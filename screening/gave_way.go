package screening

import (
	"fmt"

	"waterward/screening/job"
)

// gaveWay counts the properties of proposals that bore the name of one that was added, and
// so stand under another.
type gaveWay struct {
	properties, proposals int
	first                 string // the name of the first
	of                    string // whose it was
}

func (g *gaveWay) add(r *result) {
	if len(r.renamed) == 0 {
		return
	}
	if g.proposals == 0 {
		g.first, g.of = r.renamed[0], r.p.ID
	}
	g.proposals++
	g.properties += len(r.renamed)
}

// told says so, if there are any.
func (g *gaveWay) told() []string {
	if g.proposals == 0 {
		return nil
	}
	return []string{fmt.Sprintf("proposals: in %s %d of the properties have names of ours, the first %q of %s: in proposals.geojson they stand with \"_given\" behind their names",
		job.Count(g.proposals, "proposal"), g.properties, g.first, g.of)}
}
