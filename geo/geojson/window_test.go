package geojson

import (
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/require"
)

// What is not taken stays, in order, however much is asked for and however it comes;
// an error is met only behind all that came before it.
func TestWindow(t *testing.T) {
	broken := errors.New("broken")
	text := strings.Repeat("0123456789", 100_000)
	for _, in := range []io.Reader{
		io.MultiReader(strings.NewReader(text), iotest.ErrReader(broken)),
		iotest.DataErrReader(io.MultiReader(iotest.HalfReader(strings.NewReader(text)), iotest.ErrReader(broken))),
	} {
		w := &window{in: in}
		got := ""
		for n := 1; len(got) < len(text); n = 3*n + 1 {
			err := w.fill(n)
			if len(text)-len(got) >= n {
				require.NoError(t, err)
			} else {
				require.Equal(t, broken, err)
			}
			part := w.text()[:min(n, len(w.text()))]
			got += string(part)
			w.drop(len(part))
		}
		require.True(t, got == text)
		require.Equal(t, broken, w.fill(1))
		require.Empty(t, w.text())
	}
}

// What one long text took is not kept for all that follow it.
func TestWindowGivesRoomBack(t *testing.T) {
	w := &window{in: &endless{text: "x"}}
	require.NoError(t, w.fill(2*mostSpare*windowSize))
	w.drop(len(w.text()))
	require.NoError(t, w.fill(1))
	require.Equal(t, windowSize, cap(w.buf))
}

// A stream that gives nothing for ever ends with the error that readers have for it.
func TestWindowOfNothing(t *testing.T) {
	r, err := NewReader("in.geojson", silent{})
	require.NoError(t, err)
	_, err = r.Next()
	require.EqualError(t, err, "in.geojson: cannot be read: "+io.ErrNoProgress.Error()+"; get it again")
}

type silent struct{}

func (silent) Read([]byte) (int, error) { return 0, nil }
