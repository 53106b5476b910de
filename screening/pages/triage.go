package pages

// Triage is the page of all proposals of a run: what they come to, what must be asked, and a
// row for each.
type Triage struct {
	Title       string // of the run
	Day         string // whose rules decide
	Caution     string
	Evidence    string // of the limits used, a sentence
	Authorities []Authority
	Notices     []string // what must be seen of every proposal on a path
	Warnings    []string // what of the inputs may mislead
	Sources     []Source
	Rows        []Row
}

// Authority is one of those that decide, by its rule book.
type Authority struct {
	Name  string // as columns are called by it
	Title string // of its book
	Paths []Path // the least demanding first
}

// Path is one way to be approved, or the same with a waiver.
type Path struct{ ID, Title string }

// Source is one input.
type Source struct {
	Role, File, Date, Datum string
	Features                int
	SHA256                  string
}

// Row is what there is to say of one proposal.
type Row struct {
	ID, Kind, Parcels, File string
	Place                   string     // longitude and latitude
	Aside                   string     // why it is not decided by itself
	Error                   string     // why there is no result
	Decisions               []Decision // by authority; none without a result
	Requests                []Request
	Notices                 []string
	Changes                 []string // since an earlier run
	Data                    []string // what was measured to, with dates
	Sheet                   string   // the file with its sheets, if they were drawn
}

// Decided reports whether the row has a result.
func (r *Row) Decided() bool { return len(r.Decisions) > 0 }

// Decision is what one authority's rules come to.
type Decision struct {
	Path      int // among the paths of the authority
	Certainty Certainty
	RestsOn   string
	CouldBe   string
	Rules     []Rule   // those that decide: of the path taken, then of the easier ones
	Open      []string // other interpretations under which it would differ
	Unchecked []string // conditions of the path that no map shows
}

// Certainty is how sure a decision is, the surest first.
type Certainty int

const (
	Firm Certainty = iota
	CloseCall
	NeedsInformation
)

// String is the certainty in words.
func (c Certainty) String() string {
	return [...]string{"firm", "close call", "needs information"}[c]
}

// Rule is a criterion, as it came out.
type Rule struct {
	Path      string // title of the path it is of
	Says      string
	Value     string // "9.60 ft"; empty if unknown
	Limit     string // "at most 10 ft"
	Tolerance string // "0.48 ft"; empty if there is none
	Result    string // meets, close, exceeds, waivable, unknown
	Reason    string
	Change    string
	Evidence  string
	Cite      string
	On        bool // of the path taken
}

// Request is what to ask for, for which authorities, and what for.
type Request struct {
	Text        string
	Authorities string
	Then        string // what would be decided then
}
