package screening

import (
	"cmp"
	"strings"

	"waterward/geo/geojson"
	"waterward/rules"
)

// design is which design of which project a proposal is, as it states it.
type design struct{ project, site, alternative string }

// designOf reads it; what files write where nobody knows names nothing.
func designOf(f *geojson.Feature, fields Fields) design {
	read := func(property string) string {
		text, _ := fields.text(f, property) // a value without a meaning names nothing
		if text = strings.Join(strings.Fields(text), " "); noData.MatchString(text) {
			return ""
		}
		return text
	}
	return design{read("project"), read("site"), read("alternative")}
}

// title names the project: by its own name, else by its site's; empty if it states neither.
func (d design) title() string {
	switch {
	case d.project != "":
		return strings.TrimSpace("project " + d.project + " " + d.which())
	case d.site != "":
		return strings.TrimSpace("site " + d.site + " " + d.which())
	}
	return ""
}

func (d design) which() string {
	if d.alternative == "" {
		return ""
	}
	return "alternative " + d.alternative
}

// key is the same for one project, and one alternative of it, however they are spelled.
// Alternatives are projects of their own, of which one will be built.
func (d design) key() string {
	if d.name() == "" {
		return ""
	}
	return d.name() + "/" + rules.Plain(d.alternative)
}

// name is the same for all alternatives of one project; empty if it states neither that
// nor a site.
func (d design) name() string { return rules.Plain(cmp.Or(d.project, d.site)) }

// alternativeTo reports whether two proposals are different designs for one project.
func (d design) alternativeTo(o design) bool {
	name, other := cmp.Or(d.project, d.site), cmp.Or(o.project, o.site)
	return name != "" && rules.SameWord(name, other) &&
		d.alternative != "" && o.alternative != "" && !rules.SameWord(d.alternative, o.alternative)
}
