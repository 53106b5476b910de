package levels

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A file that is no text in UTF-8 is refused at the byte, counted by hand from 0.
func TestLevelsThatAreNotUTF8(t *testing.T) {
	for page, want := range map[string]string{
		"station,1\nname,caf\xe9\n": "the byte at offset 18 (0xE9) is not UTF-8; save it as UTF-8",
		"\xff\xfet\x00":             "its text is UTF-16; save it as UTF-8",
		"time,level\n\x00":          "the byte at offset 11 is NUL (0x00), which no text holds; save it as UTF-8 text",
	} {
		_, err := ReadText(strings.NewReader(page))
		require.EqualError(t, err, want)
	}
}

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
