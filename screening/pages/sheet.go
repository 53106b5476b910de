package pages

import "github.com/paulmach/orb"

// Sheet is what there is to draw and to say of one proposal. Places are in feet east and
// north of the middle of the structure, north being up the paper.
type Sheet struct {
	Row
	Authorities []Authority
	Title       TitleBlock
	Plan        Plan
	Section     Section
	Notes       []string // of the drawing: datums, lines and their dates, what is constructed
	Figures     []Figure // for the forms
	Sources     []Source
	Cautions    []string
}

// TitleBlock is what stands in it; what nobody has stated is empty and is left to be written.
type TitleBlock struct {
	Activity, Waterbody, Material, Parcels, Day string
}

// Figure is a number that forms ask for.
type Figure struct{ Name, Value string }

// Plan is the structure as seen from above, with what is mapped near.
type Plan struct {
	Elements   []Element
	Lines      []Course
	Grounds    []Ground
	Dimensions []Length
	Cut        [2]orb.Point           // the section's foot on mean high water and its farthest toe; the same: none
	Corner     func(orb.Point) string // its latitude and longitude, with their datum
	Reach      float64                // how far round the structure the map was read, feet
}

// Element is one piece of the structure, in the order of its numbers.
type Element struct {
	Number int
	Areas  []orb.Polygon
	Lines  [][]orb.Point // what was drawn where no width is stated
}

// Course is lines of one kind that bear one name.
type Course struct {
	Kind  CourseKind
	Names []string // a line of words each
	Lines [][]orb.Point

	owner int // of its strokes, where it was drawn last
}

// CourseKind says how a line is drawn.
type CourseKind int

const (
	HighWater CourseKind = iota // with the water on its left where that is known
	HighWaterUnfaced
	LowWater
	Riparian
	ParcelEdge
	Channel
	Limit
)

// Ground is an area that is mapped.
type Ground struct {
	Kind  GroundKind
	Names []string
	Areas []orb.Polygon
}

// GroundKind says how an area is drawn.
type GroundKind int

const (
	Grass GroundKind = iota
	Marsh
	ChannelArea
	OtherArea
	ParcelGround // named only; its edges are lines
)

// Length is what was measured between two places.
type Length struct {
	Kind     LengthKind
	From, To orb.Point      // the same: that of a bent element, told there; of an overall length: it has no place
	Others   [][2]orb.Point // places between which the same length is measured as well
	Text     string
	Name     string      // what it is and how long, for the list of those that found no place
	Away     orb.Point   // to which side it is drawn out, of length 1; zero: it stands between the places
	Shape    []orb.Point // beyond which
	Tidal    bool        // it is a distance from a tidal line
}

// LengthKind says what a length is of.
type LengthKind int

const (
	Distance LengthKind = iota // from a mapped line or area
	Opening
	Across // the width of an element
	Along  // the length of an element
	Overall
)

// Section is the cut through the structure at its farthest toe. Lengths are in feet from mean
// high water, heights in feet above the proposal's datum; NaN where not known or not stated.
type Section struct {
	Missing        string // why there is none
	Looking        string // in which direction
	Toe, Low       float64
	In, Out        float64
	Crest, Bed     float64
	Beds           int     // of how many stated beds that is the mean
	Oblique        float64 // how many times longer the cut within the structure is than one square across; NaN: it cuts off a corner
	Others         []Cut   // of the structure landward of that at the toe
	Placed         float64 // the crest before it settles, where it states by how much
	CrestWidth     float64
	Slope          float64
	High, LowWater float64
	Datum          string
	Planes         []Level // of the station near
	Words          []string
	ToeText        string // its length as it is told

	shrunk bool // it is drawn smaller than its scale
}

// Cut is where a section enters and leaves the structure, feet from mean high water, and how
// many times longer it is within than one square across.
type Cut struct{ In, Out, Oblique float64 }

// Level is a datum and its height above the proposal's.
type Level struct {
	Name string
	Feet float64
}
