package screening

import (
	"fmt"
	"math"

	"waterward/screening/front"
	"waterward/screening/job"
	"waterward/screening/out"
)

// others writes a row with its reason for each parcel chosen that has no result: what could
// not be used, what fronts nothing, and what there is not.
func (r *envelopeRun) others(fronts []front.Front) {
	parcels := r.layers.Layer("parcels")
	told := map[string]bool{} // ids of which there is a row
	tell := func(id string) {
		for _, as := range spellings(id) {
			told[as] = true
		}
	}
	for i := range fronts {
		if f := &fronts[i]; f.Parcel >= 0 {
			tell(parcels.Items[f.Parcel].Label)
		}
	}
	for _, d := range parcels.Geo.Defects {
		if id := nameOf(d.Err); r.chosen.near(id, d.Where, d.Known) {
			tell(id)
			r.out.parcels.unusable(d.Err)
			r.report.Parcels++
			r.report.Unusable++
		}
	}
	near := 0
	for _, w := range r.notes.Without {
		if id := parcels.Items[w.Parcel].Label; r.chosen.near(id, parcels.Geo.Items[w.Parcel].Bound, true) {
			tell(id)
			r.out.parcels.told(r.out.parcels.begun(w.Parcel), "note", w.Why, w.Gap)
			near++
		}
	}
	if near > 0 {
		does := "front"
		if near == 1 {
			does = "fronts"
		}
		r.report.Told = append(r.report.Told, fmt.Sprintf("%s within %s of the shore %s none of it; see note in parcels.csv", job.Count(near, "parcel"), job.FeetText(r.notes.Within), does))
	}
	if r.chosen.listed != nil {
		r.unheard(told)
	}
}

// unheard writes a row for each id of the lists that none has been written for.
func (r *envelopeRun) unheard(told map[string]bool) {
	there := map[string]int{}
	for item, it := range r.layers.Layer("parcels").Items {
		for _, id := range spellings(it.Label) {
			if _, again := there[id]; !again {
				there[id] = item
			}
		}
	}
	for _, id := range r.chosen.listed {
		item, is := there[id]
		switch {
		case told[id]:
		case !is:
			r.out.parcels.told([]string{out.ID(id).Table}, "note", noSuchParcel, math.NaN())
			r.report.Messages = append(r.report.Messages, fmt.Sprintf("%s: %s", out.Text(id).Table, noSuchParcel))
		default:
			why := "no front of it meets the window"
			if !r.chosen.fronted[item] {
				why = "lies farther than " + job.FeetText(r.notes.Within) + " from mean high water"
			}
			r.out.parcels.told(r.out.parcels.begun(item), "note", why, math.NaN())
		}
	}
}

// noSuchParcel is said of an id of a list.
const noSuchParcel = "no parcel has this id"
