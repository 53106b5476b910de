package envelope

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/simplify"

	"waterward/geo"
	"waterward/geo/geojson"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/out"
	"waterward/screening/site"
)

const (
	// candidateDetail is how far, in metres (0.05 ft), a drawn candidate may leave the
	// line it was found on.
	candidateDetail = 0.05 * job.Foot
	// lengthSlack is by how much, in metres (0.05 ft), lengths and openings are drawn
	// on the safe side of their limits.
	lengthSlack = 0.05 * job.Foot
)

// attempts are how a candidate is drawn until it comes out on its path: which share
// of the length, and how much wider the openings, in metres. On a bend the inner
// corners of two elements are nearer than their middle lines.
var attempts = []struct{ share, wider float64 }{{1, 0}, {1, 2 * job.Foot}, {0.9, 4 * job.Foot}, {0.75, 4 * job.Foot}}

// Candidate is a structure drawn for a question and screened by every book.
type Candidate struct {
	site      *site.Site
	Feature   *geojson.Feature
	Decisions []rules.Decision // by book
	Length    float64          // overall, metres
}

// takes reports whether a candidate comes out on a path, without a waiver.
func (c *Candidate) takes(p *sited) bool {
	d := &c.Decisions[p.of]
	return d.Path == p.path && len(d.Waiver) == 0
}

// failing are the paths of a question on which a candidate does not come out.
func (c *Candidate) failing(q question) question {
	return slices.DeleteFunc(slices.Clone(q), c.takes)
}

// attempt is what came of drawing candidates for a question.
type attempt struct {
	*Candidate        // nil if none comes out
	why        string // of the first that did not
	open       bool   // what kept it off is not known
}

// tried draws candidates for a question until one comes out on all of its paths: along the
// runs that fit, then along their pieces between corners, then along straight strips. Of
// those along runs one that is no close call goes before a longer one.
func (e *Search) tried(f *Outcome, q question, id string) attempt {
	p := e.pool(f, q)
	if p.tried == nil {
		p.tried = new(attempt)
		undrawn := slices.IndexFunc(q, func(s *sited) bool { return s.undrawn != "" })
		switch {
		case p.longest < e.Settings.Least.Metres:
		case undrawn >= 0:
			*p.tried = attempt{why: q[undrawn].undrawn, open: true}
		default:
			*p.tried = e.alongRuns(f.shore, p, id)
		}
	}
	return *p.tried
}

func (e *Search) alongRuns(h *shore, p *pool, id string) attempt {
	var out attempt
	along := func(runs [][]orb.Point) bool {
		for _, run := range runs {
			a := e.draw(h, p.of, run, id)
			if a.Candidate == nil {
				out.why, out.open = cmp.Or(out.why, a.why), out.open || a.open
				continue
			}
			close := a.closeCall(p.of)
			if out.Candidate == nil || !close {
				out.Candidate = a.Candidate
			}
			if !close {
				break
			}
		}
		return out.Candidate != nil
	}
	if along(p.fit.runs) || along(p.fit.pieces()) || p.fit.straight {
		return out
	}
	along(h.straightIn(p.shape(open), e.Settings.Width.Metres, e.Settings.Least.Metres))
	return out
}

// draw draws a candidate for a question along a run and has every book decide on it.
func (e *Search) draw(h *shore, q question, run []orb.Point, id string) attempt {
	var out attempt
	base := geo.NewBaseline(run)
	for _, a := range attempts {
		whole := a.share * math.Min(base.Length()-2*fitInset, q.room().most-lengthSlack)
		if whole < e.Settings.Least.Metres {
			break
		}
		c, err := e.screened(h, q, h.elements(base, whole, q.room(), a.wider), id)
		if err != nil {
			return attempt{why: err.Error()}
		}
		failing := c.failing(q)
		if len(failing) == 0 {
			return attempt{Candidate: e.withMargin(h, q, base, c, whole, a.wider, id)}
		}
		out.why, out.open = e.instead(c, failing), c.open(failing)
	}
	return out
}

// elements are those of a structure of a length in the middle of a line, with openings that
// are so much wider than they must be.
func (h *shore) elements(base geo.Baseline, whole float64, room room, wider float64) orb.MultiLineString {
	n, gap := 1.0, 0.0
	if whole > room.element-lengthSlack {
		gap = room.opening + lengthSlack + wider
		n = math.Ceil((whole + gap) / (room.element - lengthSlack + gap))
	}
	start, length := (base.Length()-whole)/2, (whole-(n-1)*gap)/n
	var made orb.MultiLineString
	for i := range int(n) {
		from := start + float64(i)*(length+gap)
		piece := simplify.DouglasPeucker(candidateDetail).LineString(orb.LineString(base.Between(from, from+length)))
		for k, p := range piece {
			piece[k] = h.Footprint.Plane.Inverse(p)
		}
		made = append(made, piece)
	}
	return made
}

// withMargin is a candidate, or if that is a close call one so much shorter at either end
// that it is none; the same if it would be one all the same.
func (e *Search) withMargin(h *shore, q question, base geo.Baseline, c *Candidate, whole, wider float64, id string) *Candidate {
	short := 0.0
	for _, p := range q {
		for _, r := range c.Decisions[p.of].Results {
			if r.Path == p.path && r.Holds && r.Measure.Quantity == rules.Length && r.Margin < r.Tolerance {
				short = math.Max(short, r.Tolerance-r.Margin+lengthSlack)
			}
		}
	}
	if whole -= 2 * short; short == 0 || !c.closeCall(q) || whole < e.Settings.Least.Metres {
		return c
	}
	if less, err := e.screened(h, q, h.elements(base, whole, q.room(), wider), id); err == nil && len(less.failing(q)) == 0 && !less.closeCall(q) {
		return less
	}
	return c
}

// closeCall reports whether a candidate is one on any path of a question.
func (c *Candidate) closeCall(q question) bool {
	return slices.ContainsFunc(q, func(p *sited) bool { return c.Decisions[p.of].Certainty == rules.CloseCall })
}

// screened is a structure as every book decides on it.
func (e *Search) screened(h *shore, q question, elements orb.MultiLineString, id string) (*Candidate, error) {
	feature, err := e.candidateFeature(id, q, elements)
	if err != nil {
		return nil, err
	}
	p := site.NewProposal(site.Alone(feature, "candidates.geojson"))
	if p.Err != nil {
		return nil, p.Err
	}
	at := e.measured(p, e.wanted)
	if e.wanted.AsksOf("riparian") {
		at.Values["riparian_nearest"] = h.riparianAt(at)
		at.BeforeParcels()
	}
	c := &Candidate{site: at, Feature: feature, Length: at.Values["overall_length"].Number}
	for _, b := range e.Books {
		c.Decisions = append(c.Decisions, b.Decide(at))
	}
	return c, nil
}

// open reports whether what keeps a candidate off some paths is nowhere known to.
func (c *Candidate) open(failing question) bool {
	return !slices.ContainsFunc(failing, func(p *sited) bool {
		return slices.ContainsFunc(c.Decisions[p.of].Results, func(r rules.Result) bool {
			return r.Path == p.path && !r.Holds && r.Outcome != rules.Unknown
		})
	})
}

// onlyStated reports whether a criterion, and whether it applies, hangs on nothing that is
// measured.
func onlyStated(c *rules.Criterion) bool {
	measured := func(in rules.Input) bool { return !site.RecordOf(in.Ref.Measure).Stated }
	return !slices.ContainsFunc(c.Inputs(), measured) && !slices.ContainsFunc(c.When, func(d *rules.Demand) bool {
		return slices.ContainsFunc(d.Inputs(), measured)
	})
}

// instead says why a candidate did not come out on the first of some paths.
func (e *Search) instead(c *Candidate, failing question) string {
	p := failing[0]
	d := &c.Decisions[p.of]
	var names []string
	for i := range d.Results {
		r := &d.Results[i]
		if r.Path == p.path && !r.Holds && !slices.Contains(names, r.Criterion.ID) {
			names = append(names, r.Criterion.ID)
		}
	}
	if names == nil {
		return fmt.Sprintf("an easier path, %s, takes it", d.Path.ID)
	}
	return "its " + strings.Join(names, ", ")
}

// candidateFeature writes a candidate as the file of candidates will, and reads it
// again, so that what is decided on is what stands there.
func (e *Search) candidateFeature(id string, q question, elements orb.MultiLineString) (*geojson.Feature, error) {
	var paths []string
	for _, s := range q {
		paths = append(paths, s.book.Authority+" "+s.path.ID)
	}
	text := func(key, value string) geojson.Member { return geojson.Member{Key: key, Raw: out.Text(value).JSON} }
	members := []geojson.Member{
		text("id", id),
		// It stands alone: of all candidates that share the water one is built.
		text("project", "candidates"), text("alternative", id),
		text("for", strings.Join(paths, ", ")), text("made_by", layers.MadeBy),
		{Key: "accuracy_ft", Raw: []byte("0")},
		{Key: "width_ft", Raw: []byte(job.Fixed(e.Settings.Width.Metres/job.Foot, 2))},
	}
	for _, name := range slices.Sorted(maps.Keys(e.Settings.Structure)) {
		member := text(name, e.Settings.Structure[name])
		if v, err := strconv.ParseFloat(e.Settings.Structure[name], 64); err == nil {
			member.Raw = []byte(out.Full(v))
		}
		members = append(members, member)
	}
	return geojson.ReadFeature("candidates.geojson", out.LinesFeature(elements, out.ShortDecimals, members), e.System)
}
