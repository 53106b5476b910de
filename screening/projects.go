package screening

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"
	"sync"

	"waterward/geo"
	"waterward/rules"
)

// projects are the proposals that belong together, by what they share: where a
// rule speaks of a single and complete project, their lengths are added up.
type projects map[string]*project

// project is the proposals of one project, or of one site.
type project struct {
	title   string
	members []*geo.Feature
	once    sync.Once
	overall rules.Value
	bank    rules.Value
}

// projectOf names the project a proposal belongs to: its project, else its
// site; empty if it states neither.
func projectOf(f *geo.Feature) string {
	for _, property := range []string{"project", "site"} {
		if name := strings.TrimSpace(f.Text(property)); name != "" {
			return property + " " + name
		}
	}
	return ""
}

// findProjects reads the proposals once before they are screened. A fault of
// the file ends it early; screening meets the same fault and reports it.
func findProjects(ctx context.Context, name string, in io.Reader) projects {
	reader, err := geo.NewReader(name, in)
	if err != nil {
		return nil
	}
	out := projects{}
	seen := map[string]bool{}
	for ctx.Err() == nil {
		f, err := reader.Next()
		if err != nil {
			break
		}
		title := projectOf(f)
		if title == "" || f.ID != "" && seen[f.ID] { // what has another's id is refused
			continue
		}
		seen[f.ID] = true
		if out[title] == nil {
			out[title] = &project{title: title}
		}
		out[title].members = append(out[title].members, f)
	}
	for title, p := range out {
		if len(p.members) < 2 {
			delete(out, title)
		}
	}
	return out
}

// measure adds up the lengths of all members, once.
func (p *project) measure(source ProposalsSource, layers *mapped, radius float64) {
	p.once.Do(func() {
		var names []string
		for _, f := range p.members {
			member := newProposal(f, source)
			names = append(names, member.id)
			if member.err != nil {
				why := unknown("%s of the same %s cannot be measured", member.id, p.title)
				p.overall, p.bank = addUp(p.overall, why), addUp(p.bank, why)
				continue
			}
			s := bareSite(member, layers, radius)
			s.lengths()
			s.tidal()
			p.overall, p.bank = addUp(p.overall, s.values["overall_length"]), addUp(p.bank, s.values["bank_length"])
		}
		detail := fmt.Sprintf("added up over the %d proposals of %s (%s)", len(names), p.title, few(names))
		p.overall.Detail, p.bank.Detail = detail, detail+", bank that two of them share counted twice"
	})
}

// addUp adds a length to a sum; what is unknown makes the sum so.
func addUp(sum, v rules.Value) rules.Value {
	switch {
	case sum.Unknown != "":
		return sum
	case v.Unknown != "":
		return rules.Value{Unknown: v.Unknown}
	}
	return rules.Value{Number: sum.Number + v.Number}
}

// mostNamed is how many names a sentence lists before it says "and so on".
const mostNamed = 6

func few(names []string) string {
	if len(names) > mostNamed {
		return strings.Join(names[:mostNamed], ", ") + " and so on"
	}
	return strings.Join(names, ", ")
}

// readTwice opens the proposals for a first reading and returns how to open
// them for the second: standard input is kept in memory for it.
func readTwice(files Files, name string, first func(io.Reader)) (Files, error) {
	input, err := files.Open(name)
	if err != nil {
		return nil, &JobError{fmt.Sprintf("proposals: cannot be opened: %v", err)}
	}
	defer input.Close()
	if name != standardInput {
		first(input)
		return files, nil
	}
	text, err := io.ReadAll(input)
	if err != nil {
		return nil, err
	}
	first(bytes.NewReader(text))
	return held{files, text}, nil
}

// standardInput is the name by which a job reads from a pipe.
const standardInput = "-"

// held opens standard input again.
type held struct {
	Files
	text []byte
}

func (h held) Open(name string) (io.ReadCloser, error) {
	if name == standardInput {
		return io.NopCloser(bytes.NewReader(h.text)), nil
	}
	return h.Files.Open(name)
}

// ofProject sets the lengths of the whole project the proposal belongs to.
func (s *site) ofProject(p *project) {
	s.values["project_length"], s.values["project_bank_length"] = s.values["overall_length"], s.values["bank_length"]
	if p != nil {
		s.values["project_length"], s.values["project_bank_length"] = p.overall, p.bank
	}
}
