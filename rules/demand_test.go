package rules

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestLimitText(t *testing.T) {
	for _, tt := range []struct {
		criterion *Criterion
		text      string
	}{
		{criterion(t, "mhw_farthest", AtMost, "10 ft"), "at most 10 ft"},
		{criterion(t, "footprint_area", AtLeast, "0.25 acre"), "at least 0.25 acre"},
		{criterion(t, "waterway_share", UnderLimit, "25 %"), "less than 25 %"},
		{criterion(t, "openings", OverLimit, "2"), "more than 2"},
		{wordCriterion(t, "kind", Is, "sill"), "sill"},
		{wordCriterion(t, "kind", AnyOf, "sill", "breakwater"), "one of: sill, breakwater"},
		{wordCriterion(t, "kind", NoneOf, "sill"), "none of: sill"},
	} {
		require.Equal(t, tt.text, tt.criterion.LimitText())
	}
}
