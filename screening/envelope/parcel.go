package envelope

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/rules"
	"waterward/screening/front"
)

// Holding is one parcel, or shore of nobody's, with its fronts.
type Holding struct {
	Item   int // of the parcels layer; -1 for shore nobody fronts
	Fronts []*front.Front
	shared []int // other parcels with the very same fronts
}

// Items are the parcels of the holding, by item of their layer; none of shore nobody fronts.
func (h Holding) Items() []int {
	if h.Item < 0 {
		return nil
	}
	return append([]int{h.Item}, h.shared...)
}

// Holdings gathers the fronts of each parcel, in the order of the parcels; those
// of stacked parcels are worked out once. Shore of nobody's follows, each front
// for itself.
func Holdings(fronts []front.Front, parcels int) []Holding {
	byParcel := make([][]*front.Front, parcels)
	var nobodys []Holding
	for i := range fronts {
		f := &fronts[i]
		if f.Parcel < 0 {
			nobodys = append(nobodys, Holding{Item: -1, Fronts: []*front.Front{f}})
			continue
		}
		byParcel[f.Parcel] = append(byParcel[f.Parcel], f)
	}
	var out []Holding
	at := map[string]int{}
	for item, own := range byParcel {
		if own == nil {
			continue
		}
		key := keyOf(own)
		if i, again := at[key]; again {
			out[i].shared = append(out[i].shared, item)
			continue
		}
		at[key] = len(out)
		out = append(out, Holding{Item: item, Fronts: own})
	}
	return append(out, nobodys...)
}

// keyOf tells sets of fronts apart, to the centimetre.
func keyOf(fronts []*front.Front) string {
	var b strings.Builder
	for _, f := range fronts {
		fmt.Fprintf(&b, "%d:%.2f-%.2f;", f.Strand, f.From, f.To)
	}
	return b.String()
}

// Result is what an envelope says of a holding.
type Result struct {
	Of     Holding
	Name   string // of its parcel, that no other has; what is made for it is named by it
	fronts []*frontEnvelope
	paths  []pathTotal // in the order of the envelope's paths
	Best   []best      // by book
	Err    error       // why nothing can be said
	partly error       // why nothing can be said of some of its fronts
}

// Wrong is why nothing can be said of all, or of some, of its fronts; nil if nothing is.
func (r *Result) Wrong() error { return cmp.Or(r.Err, r.partly) }

// pathTotal is what one path says of all fronts of a parcel.
type pathTotal struct {
	*sited
	area, unknown, band    float64 // square metres
	taken                  map[string]float64
	open, longest, deepest float64
	length                 float64 // of the greatest structure that fits
}

// best is the easiest path of a book on which a structure was drawn.
type best struct {
	Path      *rules.Path
	Candidate *candidate // nil where the last path is the best
	tightest  string
	couldBe   string // the easiest path not known to be closed, if that is an easier one
}

// certainty says how sure the path is; empty of the last path where the easier ones are
// known to be closed.
func (b best) certainty() rules.Certainty {
	switch {
	case b.couldBe != "":
		return rules.NeedsInformation
	case b.Candidate == nil:
		return ""
	}
	return b.Candidate.Decision.Certainty
}

// Work works out a holding.
func (e *Search) Work(h Holding) *Result {
	out := &Result{Of: h}
	if h.Item < 0 {
		if why := h.Fronts[0].Why; why != "" {
			out.Err = errors.New(why)
		}
		return out
	}
	out.Name = e.Layers.Layer("parcels").Distinct(h.Item)
	var wrong []error
	for _, f := range h.Fronts {
		at := e.at(f)
		out.fronts = append(out.fronts, at)
		if at.err != nil {
			wrong = append(wrong, at.err)
		}
	}
	switch {
	case len(wrong) == len(h.Fronts):
		out.Err = errors.Join(wrong...)
	case len(wrong) > 0:
		out.partly = fmt.Errorf("%d of its %d fronts have no result: %w", len(wrong), len(h.Fronts), errors.Join(wrong...))
	}
	for i, p := range e.paths {
		total := pathTotal{sited: p, taken: map[string]float64{}}
		for _, f := range out.fronts {
			if f.err != nil {
				continue
			}
			z, fit := f.zone.paths[i], f.fits[i]
			total.band += z.band
			for _, cell := range f.zone.water {
				switch z.state[cell] {
				case open:
					total.area += f.zone.cells.Cells[cell].Area
				case unclear:
					total.unknown += f.zone.cells.Cells[cell].Area
				}
			}
			for cause, area := range z.taken {
				total.taken[cause] += area
			}
			total.open += fit.open
			total.longest = math.Max(total.longest, fit.longest)
			total.deepest = math.Max(total.deepest, fit.deepest)
			total.length = math.Max(total.length, p.lengthIn(math.Max(0, fit.runLength()-2*fitStep)))
		}
		out.paths = append(out.paths, total)
	}
	if out.Err == nil {
		for _, b := range e.Books {
			out.Best = append(out.Best, e.best(out, b))
		}
	}
	return out
}

// best finds the easiest path of a book on which a structure comes out.
func (e *Search) best(r *Result, b *rules.Book) best {
	out := best{Path: b.Paths[len(b.Paths)-1]}
	note := func(path, why string) {
		if out.tightest == "" {
			out.tightest = path + ": " + why
		}
	}
	for i, p := range e.paths {
		if p.book != b {
			continue
		}
		if r.paths[i].length < e.Settings.Least.Metres {
			note(p.path.ID, r.paths[i].blocks())
			if room := e.Settings.Least.Metres * e.Settings.Width.Metres; r.paths[i].unknown >= room && out.couldBe == "" {
				out.couldBe = p.path.ID
			}
			continue
		}
		fronts := slices.Clone(r.fronts)
		slices.SortStableFunc(fronts, func(f, g *frontEnvelope) int { // the longest run first
			return cmp.Compare(g.run(i), f.run(i))
		})
		why := ""
		for _, f := range fronts {
			if f.run(i) < e.Settings.Least.Metres {
				break
			}
			c, not := e.draw(f.shore, p, f.fits[i].run, e.candidateID(r, p))
			if c != nil {
				out.Path, out.Candidate = p.path, c
				if out.tightest == "" && c.Decision.Tightest != nil {
					out.tightest = c.Decision.Tightest.Criterion.ID
				}
				return out
			}
			why = cmp.Or(why, not)
		}
		note(p.path.ID, cmp.Or(why, "too short"))
	}
	return out
}

// run is the length of the longest strip that fits on a path; -1 if none was sought.
func (f *frontEnvelope) run(path int) float64 {
	if f.err != nil {
		return -1
	}
	return f.fits[path].runLength()
}

func (e *Search) candidateID(r *Result, p *sited) string {
	return r.Name + " " + p.book.Authority + " " + p.path.ID
}

// blocks names what takes the most of the path's band, or that it is too small.
func (t *pathTotal) blocks() string {
	if t.band == 0 {
		return "no water within its reach"
	}
	worst, share := "", 0.0
	for cause, area := range t.taken {
		if area > share || area == share && cause < worst {
			worst, share = cause, area
		}
	}
	if worst == "" {
		return "too narrow or too short for the structure"
	}
	return fmt.Sprintf("%s (%.0f %%)", worst, 100*share/t.band)
}

// frontEnvelope is what an envelope says of one front.
type frontEnvelope struct {
	shore *shore
	zone  *zone
	fits  []fit // of each path
	err   error
}

// near is the window in degrees in which the layers round a front are looked at.
func (e *Search) near(h *shore) orb.Bound {
	return crs.Window(orb.LineString(h.front.Points).Bound(), h.reach*1.01+e.spotRadius)
}

// at works out the envelope of a front.
func (e *Search) at(f *front.Front) *frontEnvelope {
	out := &frontEnvelope{}
	fail := func(err error) *frontEnvelope { out.err = err; return out }
	if f.Why != "" {
		return fail(errors.New(f.Why))
	}
	var err error
	if out.shore, err = e.newShore(f, e.structure); err != nil {
		return fail(err)
	}
	if out.shore.Bank == nil {
		return fail(errors.New(out.shore.noHigh))
	}
	if out.zone, err = e.divide(out.shore); err != nil {
		return fail(fmt.Errorf("the water before it cannot be parted: %w", err))
	}
	for i, p := range out.zone.paths {
		if p.like < i {
			out.fits = append(out.fits, out.fits[p.like])
			continue
		}
		out.fits = append(out.fits, out.shore.fits(p.open, e.Settings.Width.Metres))
	}
	return out
}
