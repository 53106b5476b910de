package rules

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestReasons(t *testing.T) {
	nan := math.NaN()
	reach := criterion(t, "mhw_farthest", AtMost, "10 ft")
	grass := criterion(t, "seagrass_nearest", AtLeast, "50 ft")
	overlap := criterion(t, "seagrass_overlap", AtMost, "0 sqft")
	for _, tt := range []struct {
		criterion *Criterion
		value     Value
		reason    string
	}{
		{reach, Value{Number: 5 * foot}, ""},
		{reach, Value{Number: 5 * foot, Detail: "two shores"}, "two shores"},
		{reach, Value{Unknown: "no high water line: give one"}, "no high water line: give one"},
		{reach, Value{Number: nan}, "the farthest reach from mean high water did not come out as a number"},
		{reach, Value{Number: 9.85 * foot, Accuracy: stated(3, 1)}, "within 0.15 ft of the limit, and the positions are good to 2.13 ft"},
		{reach, Value{Number: 9.999 * foot, Accuracy: stated(3, 1)}, "within 0.01 ft of the limit, and the positions are good to 2.13 ft"},
		{reach, Value{Number: 3.048, Accuracy: stated(3, 1)}, "at the limit, and the positions are good to 2.13 ft"},
		{reach, Value{Number: 3.048}, "within 0.01 ft of the limit, nearer than it can be measured"},
		{reach, Value{Number: 5 * foot, Accuracy: []Accuracy{{Of: "the line", Line: nan, Footprint: nan}}}, "the accuracy of the line is not stated; the accuracy of the proposal is not stated"},
		{grass, Value{Number: 1000 * foot, Bound: MoreThan}, "none within 1,000 ft"},
		{grass, Value{Number: 30 * foot, Bound: MoreThan}, "none within 30 ft, which does not settle whether it is at least 50 ft: have it looked for farther off"},
		{grass, Value{Number: 30 * foot, Bound: LessThan}, "less than 30 ft"},
		{reach, Value{Number: 30 * foot, Bound: MoreThan}, "more than 30 ft"},
		{overlap, Value{Edge: metres(0.5), Accuracy: stated(3, 1)}, "a shift of 0.5 ft would change it, and the positions are good to 2.13 ft"},
		{wordCriterion(t, "material", Is, "shell"), Value{}, "the material is not stated"},
	} {
		require.Equal(t, tt.reason, judged(tt.criterion, tt.value).Reason)
	}
}
