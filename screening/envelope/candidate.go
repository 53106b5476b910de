package envelope

import (
	"bytes"
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

// sited is a path with what of it is a matter of the place and of length.
type sited struct {
	book     *rules.Book
	path     *rules.Path
	criteria []*rules.Criterion // those on the place
	most     float64            // greatest length, metres; +Inf without a limit
	element  float64            // greatest length of an element, +Inf without
	opening  float64            // least width of the openings between elements
}

// newSited reads the path's criteria for a strip of a width.
func newSited(book *rules.Book, path *rules.Path, width float64) *sited {
	s := &sited{book: book, path: path, most: math.Inf(1), element: math.Inf(1)}
	for _, c := range path.Criteria {
		if of := onThePlace(c); of != nil {
			s.criteria = append(s.criteria, of)
			continue
		}
		if len(c.When) > 0 || len(c.Others) > 0 || c.Comparison != rules.AtMost && c.Comparison != rules.UnderLimit {
			continue
		}
		if strip := site.RecordOf(c.Ref.Measure).Strip; strip != nil {
			left := strip(c.Limit, width, c.Ref)
			s.most, s.element, s.opening = math.Min(s.most, left.Most), math.Min(s.element, left.Element), math.Max(s.opening, left.Opening)
		}
	}
	return s
}

// onThePlace is a criterion as far as a place alone can fail it; nil if it cannot. Of
// several inputs of which all must keep the limit those on the place are left.
func onThePlace(c *rules.Criterion) *rules.Criterion {
	for _, when := range c.When {
		for _, in := range when.Inputs() {
			if _, ok := site.PlaceRecord(in.Ref.Measure); !ok && site.RecordOf(in.Ref.Measure).Property == "" {
				return nil // whether it applies is no matter of the place
			}
		}
	}
	var inputs []rules.Input
	for _, in := range c.Inputs() {
		if _, ok := site.PlaceRecord(in.Ref.Measure); ok {
			inputs = append(inputs, in)
		}
	}
	capped := c.Comparison == rules.AtMost || c.Comparison == rules.UnderLimit
	all := c.Pick == rules.Greatest && capped || c.Pick == rules.Least && !capped
	switch {
	case len(inputs) == len(c.Inputs()):
		return c
	case len(inputs) == 0 || !all:
		return nil
	}
	of := *c
	of.Input, of.Others = inputs[0], inputs[1:]
	if len(inputs) == 1 {
		of.Pick = rules.Single
	}
	return &of
}

// lengthIn is the greatest structure that fits into a run, openings included.
func (s *sited) lengthIn(run float64) float64 { return math.Min(run, s.most) }

// candidate is a structure drawn for a path and screened.
type candidate struct {
	*sited
	site     *site.Site
	Decision rules.Decision
	Feature  *geojson.Feature
	Length   float64 // overall, metres
}

// draw draws a candidate for a path along a run and has the book decide on it. It
// returns nil, and why, if it does not come out on its path.
func (e *Search) draw(h *shore, s *sited, run []orb.Point, id string) (*candidate, string) {
	why := ""
	for _, a := range attempts {
		base := geo.NewBaseline(run)
		whole := a.share * math.Min(base.Length()-2*fitStep, s.most-lengthSlack)
		if whole < e.Settings.Least.Metres {
			break
		}
		start := (base.Length() - whole) / 2
		n, gap := 1.0, 0.0
		if whole > s.element-lengthSlack {
			gap = s.opening + lengthSlack + a.wider
			n = math.Ceil((whole + gap) / (s.element - lengthSlack + gap))
		}
		length := (whole - (n-1)*gap) / n
		var elements orb.MultiLineString
		for i := range int(n) {
			from := start + float64(i)*(length+gap)
			piece := simplify.DouglasPeucker(candidateDetail).LineString(orb.LineString(base.Between(from, from+length)))
			for k, p := range piece {
				piece[k] = h.Footprint.Plane.Inverse(p)
			}
			elements = append(elements, piece)
		}
		feature, err := e.candidateFeature(id, s, elements)
		if err != nil {
			return nil, err.Error()
		}
		p := site.NewProposal(site.Alone(feature, "candidates.geojson"))
		if p.Err != nil {
			return nil, p.Err.Error()
		}
		at := e.measured(p, e.wanted[s.book])
		if e.wanted[s.book].AsksOf("riparian") {
			at.Values["riparian_nearest"] = h.riparianAt(at)
		}
		c := &candidate{sited: s, site: at, Feature: feature, Length: at.Values["overall_length"].Number}
		c.Decision = s.book.Decide(at)
		if c.Decision.Path == s.path && len(c.Decision.Waiver) == 0 {
			return c, ""
		}
		if why = e.instead(c); c.pastDrawing() {
			break
		}
	}
	return nil, why
}

// pastDrawing reports whether what keeps a candidate off its path no drawing of it can
// mend: what the modest structure states, and limits that nobody has read.
func (c *candidate) pastDrawing() bool {
	return slices.ContainsFunc(c.Decision.Results, func(r rules.Result) bool {
		return r.Path == c.path && !r.Holds && (r.Criterion.Evidence == rules.Unread || onlyStated(r.Criterion))
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

// instead says why a candidate did not come out on its path.
func (e *Search) instead(c *candidate) string {
	var failing []string
	for i := range c.Decision.Results {
		r := &c.Decision.Results[i]
		if r.Path == c.path && !r.Holds {
			failing = append(failing, r.Criterion.ID)
		}
	}
	if failing == nil {
		return fmt.Sprintf("an easier path, %s, takes it", c.Decision.Path.ID)
	}
	return "its " + strings.Join(failing, ", ")
}

// candidateFeature writes a candidate as the file of candidates will, and reads it
// again, so that what is decided on is what stands there.
func (e *Search) candidateFeature(id string, s *sited, elements orb.MultiLineString) (*geojson.Feature, error) {
	var b bytes.Buffer
	b.WriteString(`{"type": "Feature", "properties": {"id": `)
	b.Write(out.Text(id).JSON)
	// It stands alone: of all candidates that share the water one is built.
	fmt.Fprintf(&b, `, "project": "candidates", "alternative": %s`, out.Text(id).JSON)
	for _, member := range [][2]string{{"authority", s.book.Authority}, {"book", s.book.Name}, {"edition", s.book.Edition}, {"path", s.path.ID}} {
		fmt.Fprintf(&b, `, %q: %s`, member[0], out.Text(member[1]).JSON)
	}
	fmt.Fprintf(&b, `, "made_by": %q, "accuracy_ft": 0, "width_ft": %s`, layers.MadeBy, out.Number(e.Settings.Width.Metres/job.Foot, 2).JSON)
	for _, name := range slices.Sorted(maps.Keys(e.Settings.Structure)) {
		value := e.Settings.Structure[name]
		raw := out.Text(value).JSON
		if v, err := strconv.ParseFloat(value, 64); err == nil {
			raw = []byte(strconv.FormatFloat(v, 'f', -1, 64))
		}
		fmt.Fprintf(&b, `, %s: %s`, out.Text(name).JSON, raw)
	}
	b.WriteString(`}, "geometry": {"type": "MultiLineString", "coordinates": [`)
	for i, line := range elements {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteByte('[')
		for k, at := range line {
			if k > 0 {
				b.WriteByte(',')
			}
			b.WriteString(out.Position(at))
		}
		b.WriteByte(']')
	}
	b.WriteString(`]}}`)
	return geojson.ReadFeature("candidates.geojson", b.Bytes(), e.System)
}
