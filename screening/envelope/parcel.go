package envelope

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
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
	Name   string     // of its parcel, that no other has; what is made for it is named by it
	Fronts []*Outcome // in the order of its fronts; none of nobody's shore
	By     []Answer   // by book, the easiest of its fronts
	Joint  Joint      // the best of its fronts
	Err    error      // why nothing can be said
	partly error      // why nothing can be said of some of its fronts
}

// Wrong is why nothing can be said of all, or of some, of its fronts; nil if nothing is.
func (r *Result) Wrong() error { return cmp.Or(r.Err, r.partly) }

// Outcome is what an envelope says of one front.
type Outcome struct {
	Front *front.Front
	By    []Answer // by book
	Joint Joint
	Err   error
	shore *shore
	pools []*pool // of each question that was asked
	zones []*zone
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
	for i, f := range h.Fronts {
		name := out.Name
		if len(h.Fronts) > 1 {
			name += " front " + strconv.Itoa(i+1)
		}
		at := e.at(f, name)
		out.Fronts = append(out.Fronts, at)
		if at.Err != nil {
			wrong = append(wrong, at.Err)
		}
	}
	switch {
	case len(wrong) == len(h.Fronts):
		out.Err = errors.Join(wrong...)
		return out
	case len(wrong) > 0:
		out.partly = fmt.Errorf("%d of its %d fronts have no result: %w", len(wrong), len(h.Fronts), errors.Join(wrong...))
	}
	e.gather(out)
	return out
}

// gather finds the easiest answers of a holding's fronts.
func (e *Search) gather(r *Result) {
	first := true
	for _, f := range r.Fronts {
		if f.Err != nil {
			continue
		}
		if first {
			r.By, r.Joint = slices.Clone(f.By), f.Joint
			first = false
			continue
		}
		for i := range r.By {
			r.By[i] = r.By[i].easier(f.By[i], e.Books[i])
		}
		if own := f.Joint; own.better(&r.Joint) {
			own.Known = own.Known && (r.Joint.Known || own.Easiest())
			r.Joint = own
		} else if !f.Joint.Known && !r.Joint.Easiest() {
			r.Joint.Known = false
		}
	}
	if !r.Joint.Known {
		r.Joint.Certainty = rules.NeedsInformation
	}
}

// at works out one front.
func (e *Search) at(f *front.Front, name string) *Outcome {
	out := &Outcome{Front: f}
	if f.Why != "" {
		out.Err = errors.New(f.Why)
		return out
	}
	if out.shore, out.Err = e.newShore(f, e.structure); out.Err != nil {
		return out
	}
	if out.shore.Bank == nil {
		out.Err = errors.New(out.shore.noHigh)
		return out
	}
	out.Err = e.settle(out, name)
	return out
}

// near is the window in degrees in which the layers round a front are looked at.
func (e *Search) near(h *shore) orb.Bound {
	return crs.Window(orb.LineString(h.front.Points).Bound(), h.reach*1.01+e.spotRadius)
}

// part parts the water before a front for some paths.
func (e *Search) part(f *Outcome, paths []*sited) error {
	z, err := e.divide(f.shore, paths)
	if err != nil {
		return fmt.Errorf("the water before it cannot be parted: %w", err)
	}
	z.number = len(f.zones)
	f.zones = append(f.zones, z)
	return nil
}

// pool is the water before a front in which all paths of a question hold, with what fits
// there. The paths have been asked.
func (e *Search) pool(f *Outcome, q question) *pool {
	for _, p := range f.pools {
		if slices.Equal(p.of, q) {
			return p
		}
	}
	var z *zone
	for _, z = range f.zones {
		if z.asked(q) {
			break
		}
	}
	p := z.together(q)
	key := p.key()
	if z.fits[key] == nil {
		z.fits[key] = f.shore.fitted(p.shape(open), e.Settings.Width.Metres, e.Settings.Least.Metres)
	}
	p.fit = z.fits[key]
	p.longest = q.lengthIn(p.fit.length())
	f.pools = append(f.pools, p)
	return p
}
