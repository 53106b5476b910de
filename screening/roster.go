package screening

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"golang.org/x/text/unicode/norm"

	"waterward/geo/geojson"
	"waterward/geo/text"
	"waterward/screening/job"
	"waterward/screening/site"
)

// roster is what stands in all files of proposals together: of several features of one id,
// which is decided. It is drawn up before anything is screened.
type roster struct {
	intake  *intake
	entries []*entry
	rulings map[int]*ruling          // by order, of those of which there is something to say
	raw     map[int]*site.Submission // by order, the parts of structures, as they came
	doubts  map[int][]string         // by order, what keeps a feature from being firm as others are named beside it
	all     int                      // results there will be
}

// newRoster reads all proposals, rules on those that share an id, and checks that what the
// job looks for is there.
func newRoster(ctx context.Context, in *intake) (*roster, error) {
	r := &roster{intake: in, raw: map[int]*site.Submission{}}
	sought := newSought()
	r.all = in.each(ctx, func(s *site.Submission) {
		r.enter(s)
		sought.see(s)
	})
	r.settle()
	wanted := map[int]bool{}
	for _, ruled := range r.rulings {
		for _, order := range ruled.parts {
			wanted[order] = true
		}
	}
	r.keep(ctx, wanted, func(s *site.Submission) { r.raw[s.Order] = r.whole(s) })
	var err error
	in.missed, err = sought.missing()
	return r, err
}

// keep reads the proposals again, if any is wanted, to keep those.
func (r *roster) keep(ctx context.Context, wanted map[int]bool, visit func(*site.Submission)) {
	if len(wanted) == 0 {
		return
	}
	r.intake.each(ctx, func(s *site.Submission) {
		if wanted[s.Order] {
			visit(s)
		}
	})
}

// whole refuses a submission whose file cannot be read to its end: what is lost there may
// belong to it.
func (r *roster) whole(s *site.Submission) *site.Submission {
	if r.intake.broken[s.From] != nil {
		s.Refused = r.intake.why(s.From)
	}
	return s
}

// entry is what is kept of a feature from the first reading.
type entry struct {
	id, version, part string
	unclear           error // why its version or part cannot be read
	file              *job.ProposalsFile
	number, order     int
	drawn, readable   bool
	bound             orb.Bound // degrees; of the whole structure, once it is settled
	halfWidth         float64   // metres
	design            site.Design
}

// ruling is what is said of a feature that shares its id.
type ruling struct {
	aside   string // why it is not decided by itself
	refused string // why none of its id is decided
	remedy  string
	parts   []int // all of the structure of which it is the first
}

// enter takes note of a feature.
func (r *roster) enter(s *site.Submission) {
	e := &entry{
		id: s.ID, file: s.From, number: s.Number, order: s.Order, drawn: s.Geometry != nil, readable: s.Readable(),
		bound: s.Feature.Bound(), halfWidth: s.HalfWidth(), design: site.DesignOf(s),
	}
	var wrong [2]error
	e.version, wrong[0] = s.Text("version")
	e.part, wrong[1] = s.Text("part")
	e.version, e.part = strings.TrimSpace(e.version), strings.TrimSpace(e.part)
	e.unclear = cmp.Or(wrong[0], wrong[1])
	r.entries = append(r.entries, e)
}

// settle rules on all features that share their id.
func (r *roster) settle() {
	r.rulings, r.doubts = map[int]*ruling{}, map[int][]string{}
	byID, alike := map[string][]*entry{}, map[string]*entry{}
	for _, e := range r.entries {
		if e.id == "" {
			continue
		}
		byID[e.id] = append(byID[e.id], e)
		seen := asSeen(e.id)
		if first := alike[seen]; first == nil {
			alike[seen] = e
		} else if first.id != e.id {
			r.mistake(first, e)
			r.mistake(e, first)
		}
	}
	for _, same := range byID {
		r.rule(same)
	}
}

// mistake doubts a feature whose id can be taken for that of another.
func (r *roster) mistake(e, other *entry) {
	text := fmt.Sprintf("its id reads like that of %s, %q and %q: write them alike if they are one application (with its version or part), else so that nobody takes one for the other", other.seenFrom(e), e.id, other.id)
	if len(r.doubts[e.order]) == 0 {
		r.doubts[e.order] = []string{text}
	}
}

// asSeen is the same for ids that a reader takes for one: in another case, with other
// blanks, with characters that do not show or are made up otherwise, or a whole number written
// with a point.
func asSeen(id string) string {
	return job.Whole(job.OneWord(norm.NFKC.String(text.Shown(id))))
}

// rule says of the features of one id which is decided: the latest version, its parts as
// one structure. What is not plain refuses all of them.
func (r *roster) rule(same []*entry) {
	if len(same) == 1 {
		r.alone(same[0])
		return
	}
	latest, refused := latestOf(same)
	if refused == "" {
		refused = partsLack(same, latest)
	}
	if refused != "" {
		for _, e := range same {
			r.rulings[e.order] = &ruling{refused: refused, remedy: "give every proposal its own id, or say of each feature which version or which part of it it is (version, part)"}
		}
		return
	}
	first := latest[0]
	for _, e := range same {
		if !slices.Contains(latest, e) {
			r.rulings[e.order] = &ruling{aside: fmt.Sprintf("version %s; version %s is decided (%s)", e.version, first.version, first.seenFrom(e))}
		}
	}
	if day := r.intake.day; len(latest) < len(same) && isDay(first.version) && byDay(first.version, job.DayText(day)) > 0 {
		r.doubts[first.order] = append(r.doubts[first.order], fmt.Sprintf("its version is of %s, after the decision date: say whether it is the one to be decided", first.version))
	}
	if len(latest) == 1 {
		r.alone(first)
		return
	}
	whole := &ruling{parts: []int{first.order}}
	for _, e := range latest[1:] {
		whole.parts = append(whole.parts, e.order)
		r.rulings[e.order] = &ruling{aside: fmt.Sprintf("part %s; decided as one structure with part %s (%s)", e.part, first.part, first.seenFrom(e))}
		first.bound, first.halfWidth = first.bound.Union(e.bound), max(first.halfWidth, e.halfWidth)
		first.drawn = first.drawn && e.drawn
	}
	r.rulings[first.order] = whole
}

// alone doubts a part that has no other beside it.
func (r *roster) alone(e *entry) {
	if e.part != "" && !job.NoData.MatchString(e.part) {
		r.doubts[e.order] = append(r.doubts[e.order], fmt.Sprintf("it is part %s of a structure, and no other part of it is there: give the others, or leave part out if it is all", e.part))
	}
}

// seenFrom is where a feature stands, as told beside another.
func (e *entry) seenFrom(o *entry) string {
	if e.file == o.file {
		return fmt.Sprintf("feature %d", e.number)
	}
	return fmt.Sprintf("feature %d of %s", e.number, e.file.Name)
}

// aside reports whether a feature is decided with another or not at all.
func (r *roster) aside(e *entry) bool {
	ruled := r.rulings[e.order]
	return ruled != nil && ruled.aside != ""
}

// settled is a submission with what the roster says of it.
func (r *roster) settled(s *site.Submission) *site.Submission {
	ruled := r.rulings[s.Order]
	switch {
	case r.whole(s).Refused != nil, ruled == nil:
	case ruled.refused != "":
		if s.Feature.Err == nil { // which says more
			s.Refused = &geojson.FeatureError{File: s.From.Name, Number: s.Number, ID: s.ID, Wrong: ruled.refused, Remedy: ruled.remedy}
		}
	case ruled.aside != "":
		s.Aside = ruled.aside
	default:
		s.Parts = []*site.Submission{s}
		for _, order := range ruled.parts[1:] {
			s.Parts = append(s.Parts, r.raw[order])
		}
	}
	return s
}
