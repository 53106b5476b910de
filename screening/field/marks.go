package field

import (
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/text"
)

// Kind is what sort of thing is marked.
type Kind int

const (
	Outlines Kind = iota
	Corners       // also ends, bends and centres
	Toes
	Openings
	Distances
	HighWater
	Riparian
	kinds int = iota
)

// Site is what is marked of one proposal, in degrees.
type Site struct {
	ID      string
	Caution string // what its positions are good for, and on which datum they are
	Points  []Point
	Lines   []Line
	Ends    []Point // of the lines that are distances: for a table, they would hide one another on a screen
}

// Marks is how many there are on a screen.
func (s *Site) Marks() int { return len(s.Points) + len(s.Lines) }

// Point is a place with a name, unlike any other of its proposal.
type Point struct {
	Kind Kind
	Of   string // element 1, opening 1-2, or the distance it ends
	Name string // as 1 NE
	Says string // what it is, in full
	At   orb.Point
}

// Line is a line or an area with a name; it has one of the two.
type Line struct {
	Kind Kind
	Name string
	Says string
	Line orb.LineString
	Area orb.MultiPolygon
}

// About is what a file says of itself, none of it from an applicant but the title.
type About struct {
	Title   string
	Caution string
}

// angles are taken for others in what may come from an input: viewers run the names and
// values of a KML file, and the descriptions of a GPX file, as HTML.
var angles = strings.NewReplacer("<", "‹", ">", "›")

// shown is a text as the files hold it; what XML cannot hold, the encoders write as U+FFFD.
func shown(s string) string { return angles.Replace(text.Visible(s)) }

// decimals are those of positions in degrees: 0.018 ft at most off, a hundredth of what a
// receiver is.
const decimals = 7
