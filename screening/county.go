package screening

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/simplify"

	"waterward/rules"
	"waterward/screening/envelope"
	"waterward/screening/front"
	"waterward/screening/job"
	"waterward/screening/out"
	"waterward/screening/pages"
)

// county is report.html: the whole shore at a glance.
type county struct {
	*pages.CountyPage
	search *envelope.Search
	notes  *front.Notes
	thin   simplify.DouglasPeuckerSimplifier // of fronts, for the page's maps
}

// newCounty starts the page of a search.
func newCounty(e *envelope.Search, notes *front.Notes) *county {
	var authorities []pages.Authority
	for _, b := range e.Books {
		a := pages.Authority{Name: b.Authority, Title: b.Title}
		for _, p := range b.Paths {
			a.Paths = append(a.Paths, pages.Path{ID: p.ID, Title: p.Title})
		}
		authorities = append(authorities, a)
	}
	c := &county{search: e, notes: notes, CountyPage: pages.NewCountyPage(authorities, e.Layers.Layer("parcels").Source.Carry)}
	detail := mapDetail
	if bound, any := e.Layers.Layer("high_water").Geo.Bound(); any {
		detail = math.Min(detail, math.Max(bound.Max[0]-bound.Min[0], bound.Max[1]-bound.Min[1])/mapParts)
	}
	c.thin = *simplify.DouglasPeucker(detail)
	return c
}

const (
	// mapDetail is how far, in degrees (about 3 ft), the fronts that the maps are drawn from
	// may lie off themselves at most: water bodies, of half a mile and more, have maps in which
	// a pixel is more.
	mapDetail = 1e-5
	// mapParts is into how many parts a shore of any size is told apart in them: eight times
	// what its map shows.
	mapParts = 32000
)

// sink takes the results of an envelope for the page.
func (c *county) sink(about func() pages.County) *out.Page[*envelope.Result] {
	return &out.Page[*envelope.Result]{
		Name: "report.html",
		Take: func(r *envelope.Result) func() {
			shore := c.shore(r)
			return func() { c.Add(shore) }
		},
		Render: func(w io.Writer) error { return c.Write(w, about()) },
	}
}

// shore is what the page shows of a result.
func (c *county) shore(r *envelope.Result) pages.Shore {
	e := c.search
	made := pages.Shore{Water: e.Water(r), Error: envelope.ErrorText(r.Wrong())}
	if r.Of.Item < 0 {
		made.Unknown = r.Err != nil
	} else {
		at := r.Middle()
		made.Lon, made.Lat, made.Riparian = at[0], at[1], strings.Join(r.Riparian(), "; ")
		if r.By != nil {
			made.Best = c.outcome(r.By, &r.Joint)
		}
		parcels := e.Layers.Layer("parcels")
		for _, item := range r.Of.Items() {
			made.Parcels = append(made.Parcels, pages.Parcel{
				ID: parcels.Items[item].Label, Carried: parcels.Items[item].Carried, Note: strings.Join(c.notes.Of[item], "; "),
			})
		}
	}
	for i, f := range r.Of.Fronts {
		line := pages.Front{Water: e.WaterOf(f), Miles: (f.To - f.From) / job.Mile, Strand: f.Strand, From: f.From, To: f.To}
		line.Line = []orb.Point(c.thin.LineString(slices.Clone(orb.LineString(f.Points))))
		if r.Fronts != nil && r.Fronts[i].Err == nil {
			of := r.Fronts[i]
			line.Outcome = c.outcome(of.By, &of.Joint)
			taken := e.Taken(of)
			for _, cause := range slices.Sorted(maps.Keys(taken)) {
				line.Taken = append(line.Taken, pages.Taken{Cause: areaText(cause), Percent: taken[cause]})
			}
			for _, lack := range e.Lacks(of) {
				line.Wants = append(line.Wants, wantOf(lack))
			}
		}
		made.Fronts = append(made.Fronts, line)
	}
	return made
}

// outcome is what the answers of a front or of a parcel come to.
func (c *county) outcome(by []envelope.Answer, j *envelope.Joint) pages.Outcome {
	made := pages.Outcome{Result: true, Joint: pages.Joint{
		Says: c.search.JointText(j), Structure: j.Candidate != nil, Known: j.Known, Beyond: j.Beyond, Open: j.Open,
		Certainty: certaintyOf(j.Certainty), Blocker: areaText(j.Blocker), Share: j.Share,
	}}
	if j.Candidate != nil {
		made.Joint.Feet = j.Candidate.Length / job.Foot
	}
	for i, a := range by {
		paths := c.search.Books[i].Paths
		made.By = append(made.By, pages.Answer{
			Path: slices.Index(paths, a.Path), CouldBe: slices.Index(paths, a.CouldBe), Certainty: certaintyOf(a.Certainty),
			Feet: a.Longest / job.Foot, Blocker: areaText(a.Blocker),
		})
	}
	return made
}

func certaintyOf(c rules.Certainty) pages.Certainty {
	switch c {
	case rules.CloseCall:
		return pages.CloseCall
	case rules.NeedsInformation:
		return pages.NeedsInformation
	}
	return pages.Firm
}

// areaText is a cause with the names of areas as words.
func areaText(cause string) string { return strings.ReplaceAll(cause, "_", " ") }

// surveys are what each layer would be settled by, before the name of a water body.
var surveys = map[string]string{
	"high_water": "survey of mean high water along", "low_water": "survey of mean low water along", "shoreline": "map of land and water along",
	"seagrass": "seagrass survey of", "wetlands": "wetland survey of", "channels": "channel survey of", "riparian": "survey of the riparian lines along",
	"parcels": "survey of the parcels along",
}

// wantOf says what would make up for a lack.
func wantOf(l envelope.Lack) pages.Want {
	if l.Across {
		return pages.Want{Says: "A map of the shore across from", Of: true}
	}
	if l.Beside != "" {
		return pages.Want{Says: "A structure drawn beside the " + l.Beside + " and screened, along", Of: true}
	}
	if l.Unread != "" {
		return pages.Want{Says: "The text of a limit that nobody here has read (" + l.Unread + ")"}
	}
	survey := surveys[l.Layer]
	if area, named := strings.CutPrefix(l.Layer, "areas."); named {
		survey = "survey of " + areaText(area) + " in"
	}
	switch {
	case l.Close:
		survey = "A more exact " + survey
	case l.None || l.Layer == "riparian": // lines that were constructed are none
		survey = "A " + survey
	default:
		survey = "A newer or surer " + survey
	}
	return pages.Want{Says: survey, Of: true}
}

// aboutCounty is what the page says of the run.
func (r *envelopeRun) aboutCounty() pages.County {
	limits, unread := 0, 0
	for _, b := range r.books.Current {
		of := limitsOf(b)
		limits, unread = limits+of.Used, unread+of.Unread
	}
	made := pages.County{
		Title: cmp.Or(r.job.Title, "The shore at a glance"), Day: r.job.DecisionDate.Format("2 January 2006"), Caution: caution,
		Evidence:  evidenceText(unread, limits),
		Structure: r.structureText(), Warnings: slices.Concat(r.report.Warnings, r.report.Doubts, r.report.Idle), Sources: sourcesOf(r.inputs()),
	}
	for _, l := range r.search.LeftOut {
		made.LeftOut = append(made.LeftOut, fmt.Sprintf("%s: %s: it asks for %s", l.Book.Authority, l.Path.Title, l.Why))
	}
	if r.chosen.listed != nil || r.chosen.sides() != nil {
		made.Chosen = "Of chosen parcels only: other shore is left out."
	}
	return made
}

// structureText is the structure that is looked for, in words.
func (r *envelopeRun) structureText() string {
	s := r.search.Settings
	text := fmt.Sprintf("%s, %s wide, at least %s long, along the shore", cmp.Or(s.Structure["kind"], "of any kind"), job.FeetText(s.Width.Metres), job.FeetText(s.Least.Metres))
	for _, name := range slices.Sorted(maps.Keys(s.Structure)) {
		if name == "kind" {
			continue
		}
		plain, feet := strings.CutSuffix(name, "_ft")
		text += ", " + strings.ReplaceAll(plain, "_", " ") + " " + s.Structure[name]
		if feet {
			text += " ft"
		}
	}
	return text + "."
}
