package screening

import (
	"fmt"

	"waterward/rules"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/site"
)

// whenStarted says what of the day on which work started leaves open which edition of a
// book decides; nothing where only one does.
func whenStarted(s *inputs.BookSet, p *site.Proposal, e rules.Editions) []string {
	switch {
	case len(e.Older(s.Day)) == 0:
		return nil
	case p.StartedAs != "":
		return []string{fmt.Sprintf("when work started or was contracted is %.40q, which is no date: write it as 2026-03-15, or leave it out if it has not", p.StartedAs)}
	case p.Started.IsZero():
		return nil
	case p.Started.After(s.Day):
		return []string{fmt.Sprintf("work is said to have started on %s, after the decision date %s: correct started", job.DayText(p.Started), job.DayText(s.Day))}
	}
	first, _ := e.For(s.Day, p.Started)
	last, _ := e.For(s.Day, p.StartedBy)
	if first != last {
		return []string{fmt.Sprintf("work started between %s and %s, and another edition decides on the later day: give the day itself", job.DayText(p.Started), job.DayText(p.StartedBy))}
	}
	return nil
}
