package front

import (
	"context"
	"fmt"
	"maps"
	"slices"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/work"
)

// Notes are what is to be known of parcels besides their fronts.
type Notes struct {
	Of      map[int][]string // of parcels with fronts, by item of the parcels layer
	Without []Without        // parcels near the shore that front none of it, by item
	Within  float64          // metres from mean high water; how near is near
}

// Without is a parcel near the shore that fronts none of it.
type Without struct {
	Parcel int     // item of the parcels layer
	Gap    float64 // metres from mean high water
	Why    string  // it fronts none of it
}

const (
	// nearShore is how near to mean high water, in metres (100 ft), a parcel must come to be
	// told of if it fronts none of it (common practice, no source): a row of lots behind a
	// street, not a second one.
	nearShore = 100 * job.Foot
	// narrow is the width, in metres (10 ft), below which a parcel is a sliver, and a strip
	// before others no lot (common practice, no source): less than any lot is built on.
	narrow = 10 * job.Foot
)

// NotesOf finds what is to be known of parcels besides the fronts that [Find] has found with
// the same radius and tolerance: which of them are slivers, share an id or lie before others
// as a narrow strip, and why those within 100 ft of mean high water, or within the tolerance
// if that is more, front none of it. It is the same for any number of workers.
func NotesOf(ctx context.Context, m *layers.Set, fronts []Front, radius, tolerance float64, workers int) (*Notes, error) {
	f := newFrontage(m, radius, tolerance)
	strands, err := f.chunks(ctx, chunkLength, workers)
	if err != nil {
		return nil, err
	}
	b := &behind{frontage: f, lots: m.Layer("parcels"), strands: make([]strand, len(strands))}
	for n, chunks := range strands {
		b.strands[n] = strand{chunks: chunks, stations: stationsOf(chunks)}
	}
	has := map[int]bool{}
	for i := range fronts {
		has[fronts[i].Parcel] = true
		b.strands[fronts[i].Strand].add(&fronts[i])
	}
	notes, strips := &Notes{Of: map[int][]string{}, Within: b.within()}, map[int]*strip{}
	parcels := func(yield func(int) bool) {
		for item := range f.parcels.Items {
			if !yield(item) {
				return
			}
		}
	}
	type said struct {
		parcel int
		note   string
		found  *found
	}
	err = work.InOrder(ctx, parcels, workers, func(item int) said {
		if has[item] {
			return said{item, f.sliver(item), nil}
		}
		return said{item, "", b.look(item)}
	}, func(s said) error {
		if s.note != "" {
			notes.Of[s.parcel] = append(notes.Of[s.parcel], s.note)
		}
		if has[s.parcel] && b.lots.Alike(s.parcel) > 1 {
			notes.Of[s.parcel] = append(notes.Of[s.parcel], fmt.Sprintf("%d parcels have this id; what is drawn for this one is named %s", b.lots.Alike(s.parcel), b.lots.Distinct(s.parcel)))
		}
		if s.found == nil {
			return nil
		}
		notes.Without = append(notes.Without, s.found.Without)
		if before := s.found.before; before >= 0 && has[before] && s.found.depth < narrow {
			if strips[before] == nil {
				strips[before] = &strip{least: s.found.depth}
			}
			strips[before].add(s.found.depth, b.lots.Distinct(s.parcel))
		}
		return nil
	})
	for _, item := range slices.Sorted(maps.Keys(strips)) {
		notes.Of[item] = append(notes.Of[item], strips[item].text())
	}
	return notes, err
}

// sliver says that a parcel is one; empty if it is none.
func (f *frontage) sliver(item int) string {
	it := f.parcels.Items[item]
	if width := geo.StripWidth(crs.NewPlane(it.Bound.Center()).ForwardArea(it.Area)); width < narrow {
		return "a sliver " + feet(width) + " wide"
	}
	return ""
}

// strip is a narrow strip of one parcel along the shore, with others behind it.
type strip struct {
	least, most float64 // metres deep
	parcels     []string
}

func (s *strip) add(depth float64, parcel string) {
	s.least, s.most = min(s.least, depth), max(s.most, depth)
	s.parcels = append(s.parcels, parcel)
}

func (s *strip) text() string {
	deep, what := feet(s.least), "parcel"
	if most := feet(s.most); most != deep {
		deep += " to " + most
	}
	if len(s.parcels) > 1 {
		what = "parcels"
	}
	return fmt.Sprintf("a strip %s deep before %s %s", deep, what, job.Few(s.parcels))
}

// feet is a length of metres to a tenth of a foot.
func feet(metres float64) string { return job.Fixed(metres/job.Foot, 1) + " ft" }
