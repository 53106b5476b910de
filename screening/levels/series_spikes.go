package levels

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
)

// A spike is what stands out from the last level before it and the first behind it, to one
// side of both, by more than water moves: the form of the spike test of the IOOS Manual for
// Real-Time Quality Control of Water Level Data (QARTOD, version 2.1), which leaves the
// threshold to those who know the gauge. These are wide: common practice, no source. A surge
// of 5 m that comes and goes within four hours and a seiche of 1 m stay, read every hour or
// every six minutes; and a spike that stays, as it is smaller, moves the mean of the 27 high
// waters of a fortnight of hours by less than a short record may be off (see seasonal).
const (
	spikeHeight = 1.0 // m, at once
	spikeRate   = 3.0 // m an hour more, to the nearer of the two levels
	// spikeLasts is for how long a spike can last, or spikeLevels in a row if they are farther
	// apart. What lasts longer is none: the record is then refused for its leap.
	spikeLasts  = time.Hour
	spikeLevels = 3
	// spikesNamed is how many are named.
	spikesNamed = 5
)

// leaps is how many times as far a level must be from the one before it to be a leap: a tide
// and a spike that stays may add up.
const leaps = 1.5

// moves is how far water moves in a time, in metres, at the most.
func moves(in time.Duration) float64 { return spikeHeight + spikeRate*in.Hours() }

func leap(a, b reading) bool { return math.Abs(b.level-a.level) > leaps*moves(b.at.Sub(a.at)) }

// spike reports whether a level stands out from one before it and one behind it.
func spike(before, r, behind reading) bool {
	most := moves(min(r.at.Sub(before.at), behind.at.Sub(r.at)))
	return r.level > max(before.level, behind.level)+most || r.level < min(before.level, behind.level)-most
}

// dropSpikes takes out of rows, in the order of time, the levels farther from the middle one
// than any tide and the spikes, and says which. A leap that no spike explains is an error.
func dropSpikes(rows []reading) (notes []string, err error) {
	there := withLevel(rows)
	for _, drop := range []struct {
		find func([]reading, []int) []int
		what string
	}{
		{far, fmt.Sprintf("lie more than %.0f ft from the middle one, farther than any tide goes", Highest/foot)},
		{spikes, fmt.Sprintf("are spikes, by more than %.1f ft and %.1f ft an hour beyond the levels beside them", spikeHeight/foot, spikeRate/foot)},
	} {
		found := drop.find(rows, there)
		if len(found) == 0 {
			continue
		}
		notes = append(notes, fmt.Sprintf("%d levels %s; they count as missing: %s", len(found), drop.what, timesOf(rows, found)))
		for _, i := range found {
			rows[i].level = math.NaN()
		}
		there = withLevel(rows)
	}
	for k := 1; k < len(there); k++ {
		if a, b := rows[there[k-1]], rows[there[k]]; leap(a, b) {
			return nil, fmt.Errorf("the levels leap by %.1f ft from line %d to line %d (%s), more than water moves, and are not back within %s; was the gauge or its zero moved? Give the stretch before or behind",
				math.Abs(b.level-a.level)/foot, a.line, b.line, b.at.Format(minuteLayout), inWords(spikeLasts))
		}
	}
	return notes, nil
}

// withLevel are the rows that have a level.
func withLevel(rows []reading) []int {
	var there []int
	for i, r := range rows {
		if !math.IsNaN(r.level) {
			there = append(there, i)
		}
	}
	return there
}

// far are the rows whose levels lie farther from the middle one than any tide.
func far(rows []reading, there []int) []int {
	if len(there) == 0 {
		return nil
	}
	sorted := make([]float64, len(there))
	for k, i := range there {
		sorted[k] = rows[i].level
	}
	slices.Sort(sorted)
	middle := sorted[len(sorted)/2]
	return slices.DeleteFunc(slices.Clone(there), func(i int) bool { return math.Abs(rows[i].level-middle) <= Highest })
}

// spikes are the rows whose levels are spikes, and those few that at an end of the record are
// parted from the rest by a leap.
func spikes(rows []reading, there []int) []int {
	var dropped, kept []int
	for k := 0; k < len(there); {
		n := 0
		if len(kept) > 0 {
			n = spikesFrom(rows, rows[kept[len(kept)-1]], there[k:])
		}
		if n == 0 {
			kept = append(kept, there[k])
			k++
		}
		dropped = append(dropped, there[k:k+n]...)
		k += n
	}
	for k := 1; k < len(kept) && brief(rows, kept[:k]); k++ {
		if leap(rows[kept[k-1]], rows[kept[k]]) {
			dropped, kept = append(dropped, kept[:k]...), kept[k:]
			break
		}
	}
	for k := len(kept) - 1; k > 0 && brief(rows, kept[k:]); k-- {
		if leap(rows[kept[k-1]], rows[kept[k]]) {
			dropped = append(dropped, kept[k:]...)
			break
		}
	}
	slices.Sort(dropped)
	return dropped
}

// spikesFrom is how many of the levels behind one that is none are spikes.
func spikesFrom(rows []reading, before reading, behind []int) int {
	if math.Abs(rows[behind[0]].level-before.level) <= spikeHeight {
		return 0
	}
	for n := 1; n < len(behind) && brief(rows, behind[:n]); n++ {
		if !slices.ContainsFunc(behind[:n], func(i int) bool { return !spike(before, rows[i], rows[behind[n]]) }) {
			return n
		}
	}
	return 0
}

// brief reports whether levels in a row can be one spike.
func brief(rows []reading, of []int) bool {
	return len(of) <= spikeLevels || rows[of[len(of)-1]].at.Sub(rows[of[0]].at) < spikeLasts
}

// timesOf are the times of some rows, the first of many.
func timesOf(rows []reading, of []int) string {
	var times []string
	for _, i := range of[:min(len(of), spikesNamed)] {
		times = append(times, rows[i].at.Format(minuteLayout))
	}
	if more := len(of) - len(times); more > 0 {
		times = append(times, fmt.Sprintf("and %d more", more))
	}
	return strings.Join(times, ", ")
}
