package screening

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"hash"
	"io"
	"slices"
	"strings"
	"sync"

	"github.com/paulmach/orb"

	"waterward/geo/geojson"
)

// inputLog records what was read, for run.json.
type inputLog struct {
	mu   sync.Mutex
	read []*inputRecord
}

// inputRecord is one input of a run.
type inputRecord struct {
	Role     string    `json:"role"`
	File     string    `json:"file"`
	SHA256   string    `json:"sha256"`
	Bytes    int64     `json:"bytes"`
	Features int       `json:"features"`
	Unusable int       `json:"unusable"`
	LeftOut  int       `json:"left_out,omitempty"` // by what the job says belongs to the layer
	Repeated int       `json:"repeated,omitempty"` // dropped, as they came in an earlier file of the layer
	Extent   []float64 `json:"extent"`
	CRS      string    `json:"crs,omitempty"`
	Date     string    `json:"date,omitempty"`
	Datum    string    `json:"datum,omitempty"`
	Epoch    string    `json:"epoch,omitempty"`
	Defects  []string  `json:"defects,omitempty"`
	Repairs  []string  `json:"repairs,omitempty"` // areas that were not valid and have been rebuilt
	Warnings []string  `json:"warnings,omitempty"`
	bound    *orb.Bound
}

// counter reads an input and keeps its record.
type counter struct {
	in     io.Reader
	sum    hash.Hash
	record *inputRecord
}

func (l *inputLog) begin(role, file string, in io.Reader) *counter {
	c := &counter{in: in, sum: sha256.New(), record: &inputRecord{Role: role, File: file}}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.read = append(l.read, c.record)
	return c
}

// note records how many features of a layer's file do not belong to it, and how
// many have come in an earlier file, and what else to warn of.
func (l *inputLog) note(file, role string, leftOut, repeated int, warn []string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, r := range l.read {
		if r.Role == role && r.File == file {
			r.LeftOut, r.Repeated = leftOut, repeated
			r.Warnings = append(r.Warnings, warn...)
		}
	}
}

// sorted returns the records by role, whatever order they were opened in.
func (l *inputLog) sorted() []*inputRecord {
	out := slices.Clone(l.read)
	slices.SortStableFunc(out, func(a, b *inputRecord) int {
		return cmp.Or(strings.Compare(a.Role, b.Role), strings.Compare(a.File, b.File))
	})
	return out
}

func (c *counter) Read(p []byte) (int, error) {
	n, err := c.in.Read(p)
	c.sum.Write(p[:n])
	c.record.Bytes += int64(n)
	return n, err
}

func (c *counter) feature(f *geojson.Feature) {
	c.record.Features++
	if f.Err != nil {
		c.record.Unusable++
		return
	}
	b := f.Bound()
	if c.record.bound != nil {
		b = b.Union(*c.record.bound)
	}
	c.record.bound = &b
}

// settle records what the reader knows of the file at its end.
func (c *counter) settle(r *geojson.Reader) {
	c.record.CRS = r.CRS().String()
	c.record.Warnings = warnings(c.record.Role, c.record.File, c.record.Features, c.record.Features-c.record.Unusable, r)
}

// warnings are those of all inputs, in the order of run.json.
func (l *inputLog) warnings() []string {
	var out []string
	for _, r := range l.sorted() {
		out = append(out, r.Warnings...)
	}
	return out
}

// finish reads what is left of the input, so that the sum covers all of it.
func (c *counter) finish() error {
	if _, err := io.Copy(io.Discard, c); err != nil {
		return err
	}
	c.record.SHA256 = hex.EncodeToString(c.sum.Sum(nil))
	if b := c.record.bound; b != nil {
		c.record.Extent = []float64{b.Min[0], b.Min[1], b.Max[0], b.Max[1]}
	}
	return nil
}
