package screening

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
)

// holding is one parcel, or shore of nobody's, with its fronts.
type holding struct {
	item   int // of the parcels layer; -1 for shore nobody fronts
	fronts []*front
	shared []int // other parcels with the very same fronts
}

// holdings gathers the fronts of each parcel, in the order of the parcels; those
// of stacked parcels are worked out once. Shore of nobody's follows, each front
// for itself.
func holdings(fronts []front, parcels int) []holding {
	byParcel := make([][]*front, parcels)
	var nobodys []holding
	for i := range fronts {
		f := &fronts[i]
		if f.parcel < 0 {
			nobodys = append(nobodys, holding{item: -1, fronts: []*front{f}})
			continue
		}
		byParcel[f.parcel] = append(byParcel[f.parcel], f)
	}
	var out []holding
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
		out = append(out, holding{item: item, fronts: own})
	}
	return append(out, nobodys...)
}

// keyOf tells sets of fronts apart, to the centimetre.
func keyOf(fronts []*front) string {
	var b strings.Builder
	for _, f := range fronts {
		fmt.Fprintf(&b, "%d:%.2f-%.2f;", f.strand, f.from, f.to)
	}
	return b.String()
}

// parcelResult is what an envelope says of a holding.
type parcelResult struct {
	of     holding
	fronts []*frontEnvelope
	paths  []pathTotal // in the order of the envelope's paths
	best   []best      // by book
	err    error       // why nothing can be said
	partly error       // why nothing can be said of some of its fronts
}

// wrong is why nothing can be said of all, or of some, of its fronts; nil if nothing is.
func (r *parcelResult) wrong() error { return cmp.Or(r.err, r.partly) }

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
	path      *rules.Path
	candidate *candidate // nil where the last path is the best
	binds     string
	couldBe   string // the easiest path not known to be closed, if that is an easier one
}

// certainty says how sure the path is; empty of the last path where the easier ones are
// known to be closed.
func (b best) certainty() rules.Certainty {
	switch {
	case b.couldBe != "":
		return rules.NeedsInformation
	case b.candidate == nil:
		return ""
	}
	return b.candidate.decision.Certainty
}

// work works out a holding.
func (e *envelope) work(h holding) *parcelResult {
	out := &parcelResult{of: h}
	if h.item < 0 {
		return out
	}
	var wrong []error
	for _, f := range h.fronts {
		at := e.at(f)
		out.fronts = append(out.fronts, at)
		if at.err != nil {
			wrong = append(wrong, at.err)
		}
	}
	switch {
	case len(wrong) == len(h.fronts):
		out.err = errors.Join(wrong...)
	case len(wrong) > 0:
		out.partly = fmt.Errorf("%d of its %d fronts have no result: %w", len(wrong), len(h.fronts), errors.Join(wrong...))
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
	if out.err == nil {
		for _, b := range e.books {
			out.best = append(out.best, e.best(out, b))
		}
	}
	return out
}

// best finds the easiest path of a book on which a structure comes out.
func (e *envelope) best(r *parcelResult, b *rules.Book) best {
	out := best{path: b.Paths[len(b.Paths)-1]}
	note := func(path, why string) {
		if out.binds == "" {
			out.binds = path + ": " + why
		}
	}
	for i, p := range e.paths {
		if p.book != b {
			continue
		}
		if r.paths[i].length < e.settings.Least.Metres {
			note(p.path.ID, r.paths[i].blocks())
			if room := e.settings.Least.Metres * e.settings.Width.Metres; r.paths[i].unknown >= room && out.couldBe == "" {
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
			if f.run(i) < e.settings.Least.Metres {
				break
			}
			c, not := e.draw(f.shore, p, f.fits[i].run, e.candidateID(r, p))
			if c != nil {
				out.path, out.candidate = p.path, c
				if out.binds == "" && c.decision.Binding != nil {
					out.binds = c.decision.Binding.Criterion.ID
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

func (e *envelope) candidateID(r *parcelResult, p *sited) string {
	return e.layers.layer("parcels").items[r.of.item].label + " " + p.book.Authority + " " + p.path.ID
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
func (e *envelope) near(h *shore) orb.Bound {
	return crs.Window(orb.LineString(h.front.points).Bound(), h.reach*1.01+e.spotRadius)
}

// at works out the envelope of a front.
func (e *envelope) at(f *front) *frontEnvelope {
	out := &frontEnvelope{}
	fail := func(err error) *frontEnvelope { out.err = err; return out }
	if f.why != "" {
		return fail(errors.New(f.why))
	}
	var err error
	if out.shore, err = e.newShore(f, e.structure); err != nil {
		return fail(err)
	}
	if out.shore.bank == nil {
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
		out.fits = append(out.fits, out.shore.fits(p.open, e.settings.Width.Metres))
	}
	return out
}
