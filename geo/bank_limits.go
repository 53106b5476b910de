package geo

import "waterward/geo/crs"

// What decides which shore a structure belongs to. None is delicate: of 120 sites rich in
// creeks and canals none changed between 95 and 120 degrees.
const (
	// leapCos is the cosine of 105 degrees: two equally near feet farther apart than that
	// lie on shores that face each other. The walls of a square corner are 90 degrees
	// apart, those of a canal 180.
	leapCos = -0.25881904510252074
	// roundCos is the cosine of 91 degrees: shore that has turned farther from the home
	// bank is the other one. The head of a canal is square to its walls.
	roundCos = -0.017452406437283376
	// halves is how little two parts may differ, as a share of both, and still be equal
	// halves (common practice, no source).
	halves = 0.02
	// behindShare is the least share of a part that goes round the end of the midway line
	// that must lie behind it; of less the structure only looks in at a mouth.
	behindShare = 0.5
	// spreadShare is how wide the feet of a part must spread, as a share of its own width,
	// along a shore that is no mere lip or tip (no source).
	spreadShare = 0.5
	// aboutLeap is how far from a leap, as a multiple of its distance from the shore, the
	// structure is asked for how it sees the two shores: as far as from one to the other.
	aboutLeap = 2.0
	// narrowLand is the width, in metres (10 ft), below which land that reaches out more
	// than its own width is a groin and no shore of its own (no source).
	narrowLand = 10 * crs.MetresPerFoot
	// mainlandLengths is how many lengths of the structure an island must be more across to
	// be shore beyond dispute: of three the structure takes a third of one side, and whether
	// a shore counts for its own is a matter of judgement (no source).
	mainlandLengths = 3.0
	// sameLine is how far apart, in metres (3 ft), two features may end and still be one
	// line: less than any boat needs, more than what drawings are snapped by.
	sameLine = 3 * crs.MetresPerFoot
	// endRound is how much farther off than the shore, from a place of a structure, a
	// mapped line must end so that shore beyond that end cannot well be nearer to it: at
	// 1.5 the end is seen more than 45 degrees aside (no source).
	endRound = 1.5
)

// How finely is looked. None of these is a matter of the shore.
const (
	// walkMost and walkLeast are the greatest and the least way, in metres, between
	// places of an outline that are asked for their feet; between them it is
	// walkShare of the distance from the shore, over which a foot can hide no shore
	// that matters.
	walkMost, walkLeast, walkShare = 2.0, 0.25, 0.5
	// jumpWithin is how closely, in metres, the place is found at which a foot jumps:
	// a tenth of the tolerance of distances.
	jumpWithin = 0.00001
	// asideCos is the cosine of 60 degrees: shore that runs more aside than that from the
	// way between two feet is the riser of a step, however small: a foot may pass over it.
	asideCos = 0.5
	// ties is by how much, in metres (0.001 ft), feet may differ and be equally near.
	ties = 0.001 * crs.MetresPerFoot
	// meshCells is about how many pieces a structure is parted into, and meshParts into
	// how many, each way, a piece is parted that the midway line crosses: both together
	// tell halves apart that differ by a hundredth.
	meshCells, meshParts = 300, 8
	// mostTakenOut is how often other shores are taken out; two are the most seen.
	mostTakenOut = 6
)
