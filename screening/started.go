package screening

import (
	"fmt"

	"waterward/rules"
)

// whenStarted says what of the day on which work started leaves open which edition of a
// book decides; nothing where only one does.
func whenStarted(s *shelf, p *proposal, e rules.Editions) []string {
	switch {
	case len(e.Older(s.day)) == 0:
		return nil
	case p.startedAs != "":
		return []string{fmt.Sprintf("when work started or was contracted is %.40q, which is no date: write it as 2026-03-15, or leave it out if it has not", p.startedAs)}
	case p.started.IsZero():
		return nil
	case p.started.After(s.day):
		return []string{fmt.Sprintf("work is said to have started on %s, after the decision date %s: correct started", day(p.started), day(s.day))}
	}
	first, _ := e.For(s.day, p.started)
	last, _ := e.For(s.day, p.startedBy)
	if first != last {
		return []string{fmt.Sprintf("work started between %s and %s, and another edition decides on the later day: give the day itself", day(p.started), day(p.startedBy))}
	}
	return nil
}
