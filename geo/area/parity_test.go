package area

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// TestAnIslandInAHoleThatTouchesItsShell: it is a part of its own, though less is left of
// the shell than the hole holds. By hand, the hole by the shoelace formula: 100 - 96.03 + 1;
// make_valid of shapely 1.8.5 on GEOS 3.11.1 has two parts and 4.97 too.
func TestAnIslandInAHoleThatTouchesItsShell(t *testing.T) {
	shell := orb.Ring{{0, 0}, {10, 0}, {10, 10}, {0, 10}, {0, 0}}
	hole := orb.Ring{{0, 0}, {9.9, 0.2}, {9.9, 9.9}, {0.2, 9.9}, {0, 0}}
	island := orb.Ring{{4, 4}, {5, 4}, {5, 5}, {4, 5}, {4, 4}}
	area, err := Repair(orb.MultiPolygon{{shell, hole, island}})
	require.NoError(t, err)
	require.Len(t, area, 2)
	require.InDelta(t, 100-(9.9*9.9-9.9*0.2)+1, Of(area), 1e-9)
}
