package main

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// watched is progress by a clock that the test moves; move moves it and ticks.
func watched(terminal bool) (p *progress, out *bytes.Buffer, move func(time.Duration)) {
	out = &bytes.Buffer{}
	at := time.Unix(0, 0)
	p = newProgress(out, "parcels", terminal, func() time.Time { return at })
	return p, out, func(by time.Duration) { at = at.Add(by); p.tick() }
}

// Worked by hand: 100 done in the first 2 seconds are 50 a second; the 300 left take 6. Between
// two fifths of a second nothing is written.
func TestProgressOnATerminal(t *testing.T) {
	p, out, move := watched(true)
	p.Done(0, 400)
	p.Done(100, 400)
	move(2 * time.Second)
	p.Done(101, 400)
	move(100 * time.Millisecond)
	p.Done(400, 400)
	move(5900 * time.Millisecond)
	p.end()
	lines := strings.Split(out.String(), "\r")[1:]
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " \n")
	}
	require.Equal(t, []string{"waterward: 100 of 400 parcels, 50 a second, 6 s left", "waterward: 400 of 400 parcels, 190 a second", "waterward: 400 of 400 parcels, 50 a second"}, lines)
	require.True(t, strings.HasSuffix(out.String(), "\n"))
}

// Worked by hand: 1,200 in 5 seconds are 240 a second, of which the 36,800 left take 153.3
// seconds. Every 10 seconds there is a line, and what goes on before the first result is said
// if it takes as long.
func TestProgressInALog(t *testing.T) {
	p, out, move := watched(false)
	p.Doing("reading layers")
	move(9 * time.Second)
	require.Empty(t, out.String())
	p.Doing("finding who fronts what")
	move(time.Second)
	move(5 * time.Second)
	p.Done(0, 38_000)
	p.Done(1200, 38_000)
	move(5 * time.Second)
	p.Done(30_000, 38_000)
	move(9 * time.Second)
	p.Done(38_000, 38_000)
	p.end()
	require.Equal(t, "waterward: finding who fronts what\nwaterward: 1,200 of 38,000 parcels, 240 a second, 2 min 33 s left\n", out.String())
}

// A short run writes nothing into a log.
func TestProgressOfAShortRun(t *testing.T) {
	p, out, move := watched(false)
	p.Doing("reading layers")
	p.Done(0, 3)
	move(3 * time.Second)
	p.Done(3, 3)
	p.end()
	require.Empty(t, out.String())
}

// Worked by hand.
func TestProgressInWords(t *testing.T) {
	for seconds, want := range map[float64]string{0.4: "0 s", 59.4: "59 s", 59.6: "1 min 0 s", 3599.4: "59 min 59 s", 3900: "1 h 5 min", 90_000: "25 h 0 min"} {
		require.Equal(t, want, span(seconds))
	}
	for n, want := range map[int]string{0: "0", 999: "999", 1000: "1,000", 1234567: "1,234,567"} {
		require.Equal(t, want, grouped(n))
	}
	require.Equal(t, "30 a minute", rateText(0.5))
	require.Equal(t, "1,500 a second", rateText(1499.6))
}
