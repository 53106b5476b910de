// Package field writes what a person takes along to the shore: named places and lines of
// proposals for a phone (KMZ) and for a handheld receiver (GPX), and the corners by which
// an outline is found.
//
// It knows no rules and no maps, and may import text. Start with marks.go.
package field
