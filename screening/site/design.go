package site

import (
	"cmp"
	"strings"

	"waterward/rules"
	"waterward/screening/job"
)

// Design is which design of which project a proposal is, as it states it.
type Design struct{ Project, Site, Alternative string }

// DesignOf reads it; what files write where nobody knows names nothing.
func DesignOf(s *Submission) Design {
	read := func(property string) string {
		text, _ := s.Text(property) // a value without a meaning names nothing
		if text = strings.Join(strings.Fields(text), " "); job.NoData.MatchString(text) {
			return ""
		}
		return job.Whole(text)
	}
	return Design{read("project"), read("site"), read("alternative")}
}

// Title names the project: by its own name, else by its site's; empty if it states neither.
func (d Design) Title() string {
	switch {
	case d.Project != "":
		return strings.TrimSpace("project " + d.Project + " " + d.which())
	case d.Site != "":
		return strings.TrimSpace("site " + d.Site + " " + d.which())
	}
	return ""
}

func (d Design) which() string {
	if d.Alternative == "" {
		return ""
	}
	return "alternative " + d.Alternative
}

// Key is the same for one project, and one alternative of it, however they are spelled.
// Alternatives are projects of their own, of which one will be built.
func (d Design) Key() string {
	if d.Name() == "" {
		return ""
	}
	return d.Name() + "/" + rules.Plain(d.Alternative)
}

// Name is the same for all alternatives of one project; empty if it states neither that
// nor a site.
func (d Design) Name() string { return rules.Plain(cmp.Or(d.Project, d.Site)) }

// AlternativeTo reports whether two proposals are different designs for one project.
func (d Design) AlternativeTo(o Design) bool {
	name, other := cmp.Or(d.Project, d.Site), cmp.Or(o.Project, o.Site)
	return name != "" && rules.SameWord(name, other) &&
		d.Alternative != "" && o.Alternative != "" && !rules.SameWord(d.Alternative, o.Alternative)
}
