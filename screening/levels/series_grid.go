package levels

import (
	"fmt"
	"math"
	"slices"
	"time"
)

const (
	// stuck is for how long a gauge may show one level before it is taken to
	// stand still: slack water lasts minutes, and six hours is half a tide.
	stuck = 6 * time.Hour
	// stuckLevels are needed in a row, so that a sparse record is not judged.
	stuckLevels = 5
	// sparse is how many steps a record may have for each of its rows. More, and
	// a time in it is wrong, or there is next to nothing in it.
	sparse = 10
)

// grid puts readings at even steps: in order, each time once, the gauge moving.
// The step is the median of theirs. Where readings are not on the steps, levels
// are interpolated between two less than two steps apart.
func grid(rows []reading, notes []string) (*Series, error) {
	if len(rows) < 2 {
		return nil, fmt.Errorf("the record has %d rows; a record needs two at least", len(rows))
	}
	if !slices.IsSortedFunc(rows, earlier) {
		slices.SortStableFunc(rows, earlier)
		notes = append(notes, "the rows are not in the order of time; they were put in it")
	}
	rows, repeated, err := onceEach(rows)
	if err != nil {
		return nil, err
	}
	if repeated > 0 {
		notes = append(notes, fmt.Sprintf("%d rows repeat a time; they were dropped", repeated))
	}
	if len(rows) < 2 {
		return nil, fmt.Errorf("all rows of the record have one time")
	}
	said, err := dropSpikes(rows)
	if err != nil {
		return nil, err
	}
	notes = append(notes, said...)
	steps := make([]time.Duration, len(rows)-1)
	for i := range steps {
		steps[i] = rows[i+1].at.Sub(rows[i].at)
	}
	slices.Sort(steps)
	s := &Series{Start: rows[0].at, Step: steps[(len(steps)-1)/2], Notes: notes}
	count := int(rows[len(rows)-1].at.Sub(s.Start)/s.Step) + 1
	if count > sparse*len(rows) {
		return nil, fmt.Errorf("the record spans %s to %s with %d rows %s apart; one of its times is wrong, or it is nearly empty",
			s.Start.Format(time.DateOnly), rows[len(rows)-1].at.Format(time.DateOnly), len(rows), inWords(s.Step))
	}
	s.Levels = make([]float64, count)
	between, k := 0, 0
	for i := range s.Levels {
		at := s.Start.Add(time.Duration(i) * s.Step)
		for k+1 < len(rows) && !rows[k+1].at.After(at) {
			k++
		}
		switch a := rows[k]; {
		case a.at.Equal(at):
			s.Levels[i] = a.level
		case rows[k+1].at.Sub(a.at) < 2*s.Step:
			b := rows[k+1]
			s.Levels[i] = a.level + (b.level-a.level)*float64(at.Sub(a.at))/float64(b.at.Sub(a.at))
			between++
		default:
			s.Levels[i] = math.NaN()
		}
	}
	if between > 0 {
		s.note("the steps are uneven; %d of %d levels lie between two readings, interpolated", between, count)
	}
	if still := s.dropStuck(); still > 0 {
		s.note("the gauge stood still for %s (more than %s on one level at a time); those levels count as missing", inWords(time.Duration(still)*s.Step), inWords(stuck))
	}
	if gap, from := s.longestGap(); gap > 0 {
		s.note("%d of %d levels are missing, for at most %s (from %s)", count-s.valid(), count, inWords(gap), from.Format(minuteLayout))
	}
	return s, nil
}

func (s *Series) note(format string, a ...any) { s.Notes = append(s.Notes, fmt.Sprintf(format, a...)) }

func earlier(a, b reading) int { return a.at.Compare(b.at) }

// onceEach drops rows that repeat a time; two levels at one time are an error.
func onceEach(rows []reading) (once []reading, repeated int, err error) {
	for _, r := range rows {
		n := len(once)
		if n == 0 || !once[n-1].at.Equal(r.at) {
			once = append(once, r)
			continue
		}
		last := &once[n-1]
		switch {
		case math.IsNaN(last.level):
			*last = r
		case !math.IsNaN(r.level) && r.level != last.level:
			return nil, 0, fmt.Errorf("lines %d and %d give two levels for %s; give each time once (clocks put back in autumn do this)", last.line, r.line, r.at.Format("2006-01-02 15:04 MST"))
		}
		repeated++
	}
	return once, repeated, nil
}

// dropStuck takes out the levels of a gauge that stands still.
func (s *Series) dropStuck() int {
	dropped := 0
	for i := 0; i < len(s.Levels); {
		j := i + 1
		for j < len(s.Levels) && s.Levels[j] == s.Levels[i] {
			j++
		}
		if n := j - i; n >= stuckLevels && time.Duration(n-1)*s.Step > stuck {
			for k := i; k < j; k++ {
				s.Levels[k] = math.NaN()
			}
			dropped += n
		}
		i = j
	}
	return dropped
}
