package geo

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/flat/flattest"
)

// Lengths in this file are in feet. However the line of a canal is cut, its head is the
// same shore: everything here is asked of it cut in these ways.
var lineCuts = []float64{1000, 29, 26, 17, 5, 2}

// canalHead is a canal that runs north from its head at y = 0, its walls at x = 0 and at
// its width, and the corners of the head cut off so far along both.
func canalHead(width, bevel float64) []orb.Point {
	return []orb.Point{{0, 400}, {0, bevel}, {bevel, 0}, {width - bevel, 0}, {width, bevel}, {width, 400}}
}

// mirrored is a canal and the corners of a structure in it the other way round, the
// water again on the left of the line.
func mirrored(width float64, canal, corners []orb.Point) (line, structure []orb.Point) {
	for i := len(canal) - 1; i >= 0; i-- {
		line = append(line, orb.Point{width - canal[i][0], canal[i][1]})
	}
	for i := len(corners) - 1; i >= 0; i-- {
		structure = append(structure, orb.Point{width - corners[i][0], corners[i][1]})
	}
	return line, structure
}

// TestBankOccupiedAtTheHeadOfACanal: the bank runs on from the wall round the corner of
// the head, as far as a corner of the structure has its foot there, and no farther: the
// far wall is another shore. Worked by hand, in a canal 87 ft wide: what of the wall
// lies south of the northern corners, and what of the head lies west of the eastern
// corner of those nearer to the head than to the wall.
func TestBankOccupiedAtTheHeadOfACanal(t *testing.T) {
	for _, c := range []struct {
		name        string
		structure   orb.Ring
		long, reach float64
	}{
		{"along the wall", flattest.RingOf(20, 6, 34, 150), 150 + 34, 34},
		{"before the middle", flattest.RingOf(33, 20, 48, 150), 150 + 48, 48},
		{"before the middle, off the corner", flattest.RingOf(36, 11, 46, 59), 59 + 46, 46},
		// Its south and east corners are 23.75 and 28.75 from the head, its west one 21 from the wall.
		{"a corner ahead", orb.Ring{{26, 23.75}, {31, 28.75}, {31, 100}, {21, 100}, {21, 28.75}, {26, 23.75}}, 100 + 31, 31},
	} {
		for _, every := range lineCuts {
			line, structure := canalHead(87, 0), []orb.Point(c.structure)
			for _, wall := range []string{"west", "east"} {
				shore := NewLines(inFeet(cutEvery(every, line)...))
				fp := drawn([]orb.Polygon{{inFeet(structure...)}})
				bank := HomeBank(fp, shore)
				occupied := bank.Occupied()
				name := fmt.Sprintf("%s, %s, cut every %g ft", c.name, wall, every)
				require.Len(t, occupied, 1, name)
				requireFeet(t, c.long, occupied[0].Length, name)
				requireFeet(t, 87, widthOf(bank), name)
				_, nearer := bank.OtherShoreNearer()
				require.Equal(t, c.reach > 87.0/2, nearer, name)
				line, structure = mirrored(87, line, structure)
			}
		}
	}
}

// TestBankOccupiedAtSlantedHeads: lengths of bank from shapely 1.8.5 on GEOS 3.11.1, for
// oblique structures all of whose corners are nearest to the west wall and the head:
//
//	shore = LineString([(0, 400), (0, b), (b, 0), (w-b, 0), (w, b), (w, 400)])
//	at = [shore.project(Point(p)) for p in rotate(box(x, y, x+10, y+l), turn).exterior.coords]
//	max(at) - min(at)
//
// Of the fourth in the canals 87 ft wide the right side passes at x = y = 39.8852 from the
// head to the wall: its foot on the head there lies 0.9903 ft beyond that of the corner at
// x = 38.8949 (by hand), and the whole outline counts.
func TestBankOccupiedAtSlantedHeads(t *testing.T) {
	structures := []struct{ x, y, long, turn float64 }{{20, 25, 60, 5}, {24, 20, 60, 8}, {26, 24, 60, 0}, {31, 26, 60, -4}, {24, 36, 45, -10}}
	for _, c := range []struct {
		width, bevel float64
		want         [5]float64
	}{
		{87, 0, [5]float64{117.9173, 118.5304, 120, 126.1611, 46.0528}},
		{87, 12, [5]float64{110.8878, 111.5010, 112.9706, 119.1317, 46.0528}},
		{120, 30, [5]float64{81.5169, 83.7360, 83.6985, 86.8021, 68.8812}},
	} {
		for i, s := range structures {
			sin, cos := math.Sincos(s.turn * math.Pi / 180)
			var turned []orb.Point
			for _, p := range flattest.RingOf(-5, -s.long/2, 5, s.long/2) {
				turned = append(turned, orb.Point{s.x + 5 + cos*p[0] - sin*p[1], s.y + s.long/2 + sin*p[0] + cos*p[1]})
			}
			for _, every := range lineCuts {
				line, structure := canalHead(c.width, c.bevel), turned
				for _, wall := range []string{"west", "east"} {
					fp := drawn([]orb.Polygon{{inFeet(structure...)}})
					occupied := HomeBank(fp, NewLines(inFeet(cutEvery(every, line)...))).Occupied()
					requireFeet(t, c.want[i], occupied[0].Length, fmt.Sprintf("%v, structure %d, %s, cut every %g ft", c, i, wall, every))
					line, structure = mirrored(c.width, line, structure)
				}
			}
		}
	}
}

// TestAtTheHeadOfACanal: along a wall of a canal 80 ft wide, 20 ft off it and 6 ft from
// the head, which is nearer. The structure belongs to its wall: it reaches 34 ft out from
// that, where the far wall is 60 ft from its toe, and the water is 80 ft wide, whichever
// wall it is. Worked by hand.
func TestAtTheHeadOfACanal(t *testing.T) {
	corners := []orb.Point{{-300, 400}, {0, 400}, {0, 0}, {80, 0}, {80, 400}, {400, 400}}
	for _, every := range []float64{1000, 26, 17, 5} { // however the line is cut
		canal := NewLines(inFeet(cutEvery(every, corners)...))
		for _, c := range []struct {
			name string
			fp   *Footprint
		}{
			{"west wall", boxFeet(20, 6, 34, 150)},
			{"east wall", boxFeet(46, 6, 60, 150)},
			{"in pieces", feetBoxes([4]float64{20, 6, 34, 60}, [4]float64{20, 70, 34, 150})},
			{"well up the canal", boxFeet(20, 100, 34, 250)},
		} {
			bank := HomeBank(c.fp, canal)
			requireFeet(t, 34, bank.Farthest(c.fp).High.Distance, fmt.Sprintf("%s, every %g ft", c.name, every))
			width := widthOf(bank)
			requireFeet(t, 80, width, fmt.Sprintf("%s, every %g ft", c.name, every))
		}
	}
}
