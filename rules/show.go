package rules

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"unicode/utf8"
)

// Show writes the book as a reviewer reads it in a terminal: plain text, wrapped
// at 90 columns. The error is the writer's.
func (b *Book) Show(w io.Writer) error {
	var p page
	p.head(b)
	for i, path := range b.Paths {
		p.path(i, path)
	}
	p.notices("", "Notices on any path", b.Notices)
	_, err := io.WriteString(w, p.text.String())
	return err
}

const (
	pageWidth = 90
	// A longer id gets a line of its own, so that the text keeps its width.
	longestID  = 18
	pathIndent = "   " // as wide as the number of a path
)

// page collects wrapped lines.
type page struct{ text strings.Builder }

func (p *page) space() { p.text.WriteByte('\n') }

// put writes text behind a lead, wrapped; further lines are indented by the
// lead's width.
func (p *page) put(lead, text string) {
	indent := utf8.RuneCountInString(lead)
	at := indent
	p.text.WriteString(lead)
	for i, word := range strings.Fields(text) {
		width := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case at+1+width > pageWidth:
			p.text.WriteString("\n" + strings.Repeat(" ", indent))
			at = indent
		default:
			p.text.WriteByte(' ')
			at++
		}
		p.text.WriteString(word)
		at += width
	}
	p.text.WriteByte('\n')
}

// row writes a line of the head.
func (p *page) row(name, text string) { p.put(fmt.Sprintf("  %-13s ", name), text) }

func (p *page) head(b *Book) {
	p.put("", b.Name+", edition "+b.Edition)
	p.put("", b.Title)
	p.space()
	p.row("authority", b.Authority)
	p.row("jurisdiction", b.Jurisdiction)
	period := b.Period()
	if b.Started != nil {
		period += " (" + sourceText(b.Started.Cite, b.Started.Evidence) + ")"
	}
	p.row("applies", period)
	p.row("status", string(b.Status))
	p.limits(b)
	p.row("caution", b.Caution)
	for _, measure := range slices.Sorted(maps.Keys(b.Words)) {
		p.row("words", fmt.Sprintf("of the %s it knows beside those it compares with: %s", measure, list(b.Words[measure])))
	}
}

// evidenceMeans says what the words for evidence stand for.
var evidenceMeans = map[Evidence]string{
	Read:      "in the published text",
	Secondary: "in somebody's account of it",
	Practice:  "common practice, without a source",
	Memory:    "remembered, not looked up",
	Unread:    "known to exist, and read by nobody",
}

// limits counts what rests on which evidence. Other interpretations are not counted:
// they decide nothing.
func (p *page) limits(b *Book) {
	on := b.limitsOn()
	switch all, unread := b.Limits(); {
	case all == 0:
		p.row("limits", "none")
	case unread == 1:
		p.row("limits", fmt.Sprintf("%d, of which 1 does not rest on the rule's own text", all))
	default:
		p.row("limits", fmt.Sprintf("%d, of which %d do not rest on the rule's own text", all, unread))
	}
	for _, e := range evidenceOrder {
		if on[e] > 0 {
			p.row("", fmt.Sprintf("%d %s: %s", on[e], e, evidenceMeans[e]))
		}
	}
}

func (p *page) path(i int, path *Path) {
	p.space()
	p.put(fmt.Sprintf("%d. ", i+1), path.ID+": "+path.Title)
	if len(path.Criteria) == 0 {
		p.space()
		p.put(pathIndent, "No criteria: it always holds.")
	}
	width := 0
	for _, c := range path.Criteria {
		width = max(width, min(len(c.ID), longestID))
	}
	for _, u := range path.Unread {
		width = max(width, min(len(u.ID), longestID))
	}
	for _, c := range path.Criteria {
		p.criterion(width, c)
	}
	for _, u := range path.Unread {
		lead, blank := p.limit(width, u.ID)
		p.put(lead, sentence("limits on "+u.Says+", which nobody has read: so the path is never sure to hold"))
		p.put(blank, "["+sourceText(u.Cite, Unread)+"]")
	}
	p.notices(pathIndent, "Conditions that no map shows", path.Conditions)
	p.notices(pathIndent, "Notices", path.Notices)
}

// limit begins a limit: what stands before its first line and before the others.
func (p *page) limit(width int, id string) (lead, blank string) {
	p.space()
	blank = strings.Repeat(" ", len(pathIndent)+width+2)
	if len(id) > width {
		p.put(pathIndent, id)
		return blank, blank
	}
	return fmt.Sprintf("%s%-*s  ", pathIndent, width, id), blank
}

func (p *page) criterion(width int, c *Criterion) {
	lead, blank := p.limit(width, c.ID)
	p.put(lead, sentence(c.full()))
	if len(c.When) > 0 {
		p.put(blank, sentence("only where "+all(c.When)))
	}
	if c.Scope {
		p.put(blank, "So the path is for that alone.")
	}
	if c.IfStated {
		p.put(blank, "Where the proposal does not state it, it does not stand against it, and is asked for.")
	}
	if c.WaivableBy != "" {
		p.put(blank, sentence("may be waived by "+c.WaivableBy))
	}
	if c.Says != "" {
		p.put(blank+"> ", c.Says)
	}
	if c.Interpretation != "" {
		p.put(blank, sentence("decided by the interpretation: "+c.Interpretation))
	}
	for _, r := range c.Interpretations {
		p.put(blank+"Or ", fmt.Sprintf("%s: %s (%s; %s)", r.ID, r.full(), r.Says, sourceText(r.Cite, r.Evidence)))
	}
	source := sourceText(c.Cite, c.Evidence)
	if !c.Looked.IsZero() {
		source += ", looked at " + c.Looked.Format(dayLayout)
	}
	p.put(blank, "["+source+"]")
}

// notices writes a list of them, those that rest on nothing marked.
func (p *page) notices(indent, title string, notices []*Notice) {
	if len(notices) == 0 {
		return
	}
	p.space()
	p.put(indent, title)
	for _, n := range notices {
		text := n.Says
		if n.Evidence == Unverified {
			text = "NOT VERIFIED: " + text
		}
		p.put(indent+"- ", text+" ["+sourceText(n.Cite, n.Evidence)+"]")
		if len(n.When) > 0 {
			p.put(indent+"  ", sentence("only where "+all(n.When)))
		}
	}
}

func sourceText(cite string, e Evidence) string {
	if cite == "" {
		return string(e)
	}
	return cite + "; " + string(e)
}

// full is the demand in words with the parameters of its measure, or how old its
// data may be: what takes a parameter rests on no layer.
func (d *Demand) full() string {
	switch {
	case d.Ref.Every > 0:
		return fmt.Sprintf("%s (one of at least %s is due every %s)", d, feet.Format(d.Ref.Opening), feet.Format(d.Ref.Every))
	case d.Ref.Opening > 0:
		return fmt.Sprintf("%s (an opening counts from %s)", d, feet.Format(d.Ref.Opening))
	case d.Ref.MaxAge.Months > 0:
		return fmt.Sprintf("%s (on data no older than %s)", d, d.Ref.MaxAge)
	}
	return d.String()
}

// all is a list of conditions in words, to follow "only where".
func all(when []*Demand) string {
	var parts []string
	for _, d := range when {
		parts = append(parts, d.full())
	}
	return and(parts)
}

// sentence begins with a capital and ends with a full stop.
func sentence(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return strings.ToUpper(string(first)) + strings.TrimSuffix(text[size:], ".") + "."
}
