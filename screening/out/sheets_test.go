package out

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestFileNames: names that every system takes, no two alike where the case of letters is of
// no matter. Worked by hand; the devices are those of Windows (Microsoft, Naming Files, from
// memory).
func TestFileNames(t *testing.T) {
	names := FileNames{}
	long := strings.Repeat("x", 200)
	for _, c := range [][2]string{
		{"P-05", "P-05"}, {"p-05", "p-05-2"}, {"P 05", "P_05"}, {"P/05", "P_05-2"}, {"../../etc", "_._.._etc"}, {"..", "_"}, {"", "_-2"},
		{"CON", "_CON"}, {"com1.x", "_com1.x"}, {"COMB", "COMB"}, {"a.", "a"}, {".git", "_git"}, {"é", "_-3"}, {long, long[:60]}, {long + "y", long[:60] + "-2"},
		{"P-05-2", "P-05-2-2"}, {"<script>", "_script_"},
	} {
		require.Equal(t, c[1], names.Of(c[0]), "%q", c[0])
	}
}
