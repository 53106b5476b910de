package inputs

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"
	"io"
	"slices"
	"strings"
	"sync"

	"github.com/paulmach/orb"

	"waterward/geo/geojson"
	"waterward/screening/job"
)

// Log records what was read, for run.json.
type Log struct {
	mu   sync.Mutex
	read []*Record
}

// Record is one input of a run.
type Record struct {
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
	heights  int // features whose positions have a third number
}

// counter reads an input and keeps its record.
type counter struct {
	in     io.Reader
	sum    hash.Hash
	Record *Record
}

func (l *Log) Begin(role, file string, in io.Reader) *counter {
	c := &counter{in: in, sum: sha256.New(), Record: &Record{Role: role, File: file}}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.read = append(l.read, c.Record)
	return c
}

// Note records how many features of a layer's file do not belong to it, and how
// many have come in an earlier file, and what else to warn of.
func (l *Log) Note(file, role string, leftOut, repeated int, warn []string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, r := range l.read {
		if r.Role == role && r.File == file {
			r.LeftOut, r.Repeated = leftOut, repeated
			r.Warnings = append(r.Warnings, warn...)
		}
	}
}

// Sorted returns the records by role, whatever order they were opened in.
func (l *Log) Sorted() []*Record {
	out := slices.Clone(l.read)
	slices.SortStableFunc(out, func(a, b *Record) int {
		return cmp.Or(strings.Compare(a.Role, b.Role), strings.Compare(a.File, b.File))
	})
	return out
}

func (c *counter) Read(p []byte) (int, error) {
	n, err := c.in.Read(p)
	c.sum.Write(p[:n])
	c.Record.Bytes += int64(n)
	return n, err
}

func (c *counter) Feature(f *geojson.Feature) {
	c.Record.Features++
	if f.Err != nil {
		c.Record.Unusable++
		return
	}
	if f.HasHeights() {
		c.Record.heights++
	}
	b := f.Bound()
	if c.Record.bound != nil {
		b = b.Union(*c.Record.bound)
	}
	c.Record.bound = &b
}

// Settle records what the reader knows of the file at its end.
func (c *counter) Settle(r *geojson.Reader) {
	c.Record.CRS = r.CRS().String()
	c.Record.Warnings = warnings(c.Record.Role, c.Record.File, c.Record.Features, c.Record.Features-c.Record.Unusable, r)
	if n := c.Record.heights; n > 0 && c.Record.Role == "proposals" {
		c.Record.Warnings = append(c.Record.Warnings, fmt.Sprintf("proposals: the positions of %s in %s have a third number, which RFC 7946 makes a height above the ellipsoid and is not read: state crest_elev_ft and its datum", job.Count(n, "feature"), c.Record.File))
	}
}

// Warnings are those of all inputs, in the order of run.json.
func (l *Log) Warnings() []string {
	var out []string
	for _, r := range l.Sorted() {
		out = append(out, r.Warnings...)
	}
	return out
}

// Finish reads what is left of the input, so that the sum covers all of it.
func (c *counter) Finish() error {
	if _, err := io.Copy(io.Discard, c); err != nil {
		return err
	}
	c.Record.SHA256 = hex.EncodeToString(c.sum.Sum(nil))
	if b := c.Record.bound; b != nil {
		c.Record.Extent = []float64{b.Min[0], b.Min[1], b.Max[0], b.Max[1]}
	}
	return nil
}
