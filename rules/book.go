package rules

import (
	"fmt"
	"math"
	"time"
)

// Book is one authority's rules in one edition.
type Book struct {
	Name         string // as jobs refer to it
	Title        string
	Authority    string // a lower-case word; the prefix of the authority's columns
	Jurisdiction string
	Edition      string
	From, Until  time.Time // days, both inclusive; zero means open
	Started      *Carried  // nil where work begun under the book gets no longer time
	Status       Status
	Caution      string
	Words        map[string][]string // by measure, words the book knows beside those it compares with
	Paths        []*Path             // from least to most demanding; the last has no criteria
	Notices      []*Notice           // shown whatever the path
	Examples     []*Example

	period  Problem // where its dates stand, for messages
	builtIn bool
}

// Carried says for how long work that was begun or under contract by a book's
// last day goes on under it.
type Carried struct {
	Until    time.Time // day, inclusive
	Cite     string
	Evidence Evidence
}

// Status says whether a book's rules are applied.
type Status string

const (
	InForce     Status = "in force"
	Pending     Status = "pending"
	Inoperative Status = "inoperative" // printed, but not applied
)

// Evidence says how the text of a limit is known.
type Evidence string

const (
	Read      Evidence = "read"      // in the published rule
	Secondary Evidence = "secondary" // in someone's account of the rule
	Practice  Evidence = "practice"  // common practice, without a source
	Memory    Evidence = "memory"    // remembered, not looked up
	// Unverified is too doubtful for a limit: only a notice or another interpretation
	// may rest on it, and what they say is shown only to who asks.
	Unverified Evidence = "unverified"
	// Unread is the evidence of a limit that is known to exist and that nobody has read.
	Unread Evidence = "unread"
)

// Path is one way for a proposal to be approved.
type Path struct {
	ID         string
	Title      string
	Criteria   []*Criterion
	Unread     []*UnreadLimit // what the path also demands and nobody has read
	Conditions []*Notice      // what the path demands and no map shows
	Notices    []*Notice      // shown when the path is the decision
}

// UnreadLimit is a limit that is known to exist and whose text nobody has read. No
// proposal is known to keep it, so it is unknown for all of them.
type UnreadLimit struct {
	ID   string
	Says string // what they are limits on
	Cite string // where it stands
}

// unknown is the limit as a result.
func (u *UnreadLimit) unknown(path *Path) Result {
	why := fmt.Sprintf("there are limits on %s (%s), and nobody here has read them: have that text read, and show that they are kept", u.Says, u.Cite)
	c := &Criterion{ID: u.ID, Cite: u.Cite, Evidence: Unread, Says: u.Says}
	return Result{
		Path: path, Criterion: c, Demand: &c.Demand, Value: Value{Unknown: why}, Outcome: Unknown,
		Margin: math.NaN(), Tolerance: math.NaN(), Doubts: []string{why}, Reason: why,
	}
}

// Notice is what does not change the path but must be seen.
type Notice struct {
	When     []*Demand // shown only where all of these hold
	Says     string
	Cite     string
	Evidence Evidence
}

// String is the notice with its source, in one line.
func (n *Notice) String() string {
	if n.Cite == "" {
		return fmt.Sprintf("%s (%s)", n.Says, n.Evidence)
	}
	return fmt.Sprintf("%s (%s, %s)", n.Says, n.Cite, n.Evidence)
}

// Criterion is one condition of a path.
type Criterion struct {
	Demand
	ID              string
	When            []*Demand         // the criterion applies only where all of these hold
	Interpretation  string            // which meaning of the wording decides, if it has several
	Interpretations []*Interpretation // the other meanings
	Scope           bool              // it says what the path is for: a path of other things is not worth naming
	IfStated        bool              // of a stated word: what the proposal does not say does not stand against it
	WaivableBy      string            // who may waive it; empty if nobody
	Cite            string
	Evidence        Evidence
	Says            string
	Looked          time.Time // when the text was last looked at; zero if not said
}

// Interpretation is another meaning of a criterion's wording. It is judged and
// reported, and never decides.
type Interpretation struct {
	Demand
	ID       string
	Says     string
	Cite     string
	Evidence Evidence
}

// Demands are all demands of the book in its order: of criteria, of their
// conditions and interpretations, and of notices.
func (b *Book) Demands() []*Demand {
	var out []*Demand
	for _, path := range b.Paths {
		for _, c := range path.Criteria {
			out = append(append(out, &c.Demand), c.When...)
			for _, r := range c.Interpretations {
				out = append(out, &r.Demand)
			}
		}
		for _, n := range path.Notices {
			out = append(out, n.When...)
		}
	}
	for _, n := range b.Notices {
		out = append(out, n.When...)
	}
	return out
}

// Limits says how many limits the book has, and how many of them rest on text
// that nobody has read.
func (b *Book) Limits() (all, unread int) {
	for evidence, limits := range b.limitsOn() {
		all += limits
		if evidence != Read {
			unread += limits
		}
	}
	return all, unread
}

// limitsOn counts the limits by how their text is known.
func (b *Book) limitsOn() map[Evidence]int {
	on := map[Evidence]int{}
	for _, path := range b.Paths {
		for _, c := range path.Criteria {
			on[c.Evidence]++
		}
		on[Unread] += len(path.Unread)
	}
	return on
}
