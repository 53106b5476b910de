package levels

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A byte order mark, as spreadsheets write one, is no part of a file, whatever is in it.
func TestByteOrderMarkIsDropped(t *testing.T) {
	read := func(text string) []byte {
		marked, err := ReadText(strings.NewReader("\ufeff" + text))
		require.NoError(t, err)
		require.Equal(t, text, string(marked))
		return marked
	}
	s, err := ReadStation(read(fernandina))
	require.NoError(t, err)
	require.Equal(t, Epoch{1983, 2001}, s.Epoch)
	s, err = ReadStation(read("station,1\nunit,meters\nepoch,1983-2001\nMHW,2\n"))
	require.NoError(t, err)
	require.Equal(t, "1", s.ID)
}
