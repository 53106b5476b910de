package main

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// 100 done in the first 2 seconds are 50 a second; the 300 left take 6. Between two
// fifths of a second nothing is written.
func TestProgressSaysHowLongItTakes(t *testing.T) {
	var out bytes.Buffer
	at := time.Unix(0, 0)
	show := shown(&out, func() time.Time { return at })
	show(0, 400)
	at = at.Add(2 * time.Second)
	show(100, 400)
	show(101, 400)
	at = at.Add(6 * time.Second)
	show(400, 400)
	lines := strings.Split(out.String(), "\r")[1:]
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " \n")
	}
	require.Equal(t, []string{"waterward: 0 of 400", "waterward: 100 of 400, 50 a second, 6s left", "waterward: 400 of 400, 50 a second"}, lines)
	require.True(t, strings.HasSuffix(out.String(), "\n"))
}
