package main

import (
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
)

const (
	// leastRoom is how much, in bytes, may lie unused before the collector looks for it:
	// looking more often costs a small run time and saves it little.
	leastRoom = 200 << 20
	// roomShare is the same as a percentage of what is in use, where that is more: with a
	// state's layers in use the collector's own default would need a quarter more memory
	// to be a tenth faster.
	roomShare = 50
)

// paceCollector sets how often memory no longer used is collected by what is in use,
// anew after each collection. GOGC, if set, decides instead.
func paceCollector() {
	if os.Getenv("GOGC") != "" {
		return
	}
	debug.SetGCPercent(room(0))
	type sentinel [64]byte // too large to share a block with what lives on
	var collected func(*sentinel)
	collected = func(s *sentinel) {
		live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
		metrics.Read(live)
		debug.SetGCPercent(room(live[0].Value.Uint64()))
		runtime.SetFinalizer(s, collected)
	}
	runtime.SetFinalizer(new(sentinel), collected)
}

// room is the percentage of what is in use, in bytes, that may lie unused beside it.
func room(live uint64) int {
	const least = 4 << 20 // below which the collector does not count
	return int(max(roomShare, 100*leastRoom/max(live, least)))
}
