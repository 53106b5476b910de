package job

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A job that is no text in UTF-8 is refused at the byte, counted by hand from 0.
func TestJobsThatAreNotUTF8(t *testing.T) {
	for text, want := range map[string]string{
		"decision_date: 2026-11-25 # caf\xe9\n": "job.yaml: the byte at offset 31 (0xE9) is not UTF-8; save it as UTF-8",
		"\xff\xfed\x00":                         "job.yaml: its text is UTF-16; save it as UTF-8",
		"a: \x00":                               "job.yaml: the byte at offset 3 is NUL (0x00), which no text holds; save it as UTF-8 text",
	} {
		_, err := Load("job.yaml", strings.NewReader(text))
		require.EqualError(t, err, want)
	}
	_, err := Load("job.yaml", strings.NewReader("\ufeffdecision_date: 2026-11-25 # café\n"))
	require.NoError(t, err)
}
