package inputs

import (
	"hash/maphash"
	"strings"

	"waterward/geo/geojson"
	"waterward/screening/job"
)

// objectIDs are the properties by which servers number the features of a layer.
var objectIDs = []string{"OBJECTID", "FID", "OBJECTID_1"}

// repeats finds the features that stand in more than one file of a layer, as the
// pages of a download do that was not ordered: the same number and the same shape.
// The same number alone says nothing: sheets of two counties are numbered from 1.
type repeats struct {
	seed    maphash.Seed
	from    map[uint64]string // the file a feature was first in
	Dropped map[string]int    // by file
}

// NewRepeats looks for repeats if there are several files.
func NewRepeats(several bool) *repeats {
	r := &repeats{Dropped: map[string]int{}}
	if several {
		r.seed, r.from = maphash.MakeSeed(), map[uint64]string{}
	}
	return r
}

// Again reports whether a feature has come in an earlier file.
func (r *repeats) Again(f *geojson.Feature, file string) bool {
	id := f.ID
	for _, name := range objectIDs {
		if text := f.Text(job.Spelled(f, name)); text != "" {
			id = name + " " + text
			break
		}
	}
	if r.from == nil || id == "" || f.Geometry == nil {
		return false
	}
	var h maphash.Hash
	h.SetSeed(r.seed)
	h.WriteString(id)
	h.WriteByte(0)
	h.WriteString(strings.TrimSpace(f.GeometryText()))
	key := h.Sum64()
	first, there := r.from[key]
	if !there {
		r.from[key] = file
		return false
	}
	if first == file {
		return false
	}
	r.Dropped[file]++
	return true
}
