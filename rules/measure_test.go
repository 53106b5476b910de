package rules

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestFindMeasure(t *testing.T) {
	for _, m := range measures {
		if m.Name == "in_area" {
			continue
		}
		found, ok := FindMeasure(m.Name)
		require.True(t, ok, m.Name)
		require.Equal(t, m, found)
		require.NotEmpty(t, m.Title, m.Name)
		_, ok = FindMeasure(m.Name + ":x")
		require.False(t, ok, "only in_area takes a suffix, not %s", m.Name)
	}
	area, ok := FindMeasure("in_area:aquatic_preserve")
	require.True(t, ok)
	require.Equal(t, Measure{Name: "in_area:aquatic_preserve", Title: "touching aquatic preserve", Quantity: Names, Dated: true}, area)
	for _, name := range []string{"", "in_area", "in_area:", "in_area: ", "MHW_farthest", "mhw_farthest "} {
		_, ok := FindMeasure(name)
		require.False(t, ok, "%q", name)
	}
}

func TestOnlyOpeningMeasuresTakeAParameter(t *testing.T) {
	var with []string
	for _, m := range measures {
		if len(m.Parameters) > 0 {
			require.Equal(t, "opening", m.Parameters[0])
			with = append(with, m.Name)
		}
	}
	require.Equal(t, []string{"longest_run", "opening_spacing", "openings", "openings_lacking"}, with)
}

func TestNamesOfKinds(t *testing.T) {
	require.Equal(t, "length", Length.String())
	require.Equal(t, "volume per length", VolumePerLength.String())
	require.Equal(t, "names", Names.String())
	require.Equal(t, "unknown quantity", Quantity(99).String())
	require.Equal(t, "meets", Meets.String())
	require.Equal(t, "unknown", Unknown.String())
	require.Equal(t, "no outcome", Outcome(-1).String())
}
