package screening

import (
	"encoding/json"
	"time"

	"waterward/geo/text"
	"waterward/rules"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/out"
)

// manifest is run.json: what made the outputs what they are. It holds no
// wall-clock time, so the same inputs give the same bytes.
type manifest struct {
	Tool         string            `json:"tool"`
	Version      string            `json:"version"`
	Command      string            `json:"command"`
	Caution      string            `json:"caution"`
	DecisionDate string            `json:"decision_date"`
	Settings     any               `json:"settings"`
	Structure    map[string]string `json:"structure,omitempty"` // of an envelope's candidates
	LeftOut      []string          `json:"paths_it_can_never_take,omitempty"`
	Books        []bookRecord      `json:"books"`
	Idle         []string          `json:"books_that_decide_nothing,omitempty"`
	NoLayer      []string          `json:"notices_not_checked_without_layers,omitempty"`
	Datums       []string          `json:"datums_that_differ,omitempty"`
	Doubts       []string          `json:"layers_that_may_mislead,omitempty"`
	Limits       *limitsRecord     `json:"limits,omitempty"`
	Inputs       []*inputs.Record  `json:"inputs"`
	Unstated     []string          `json:"accuracy_unstated,omitempty"`
	Proposals    int               `json:"proposals,omitempty"`
	Parcels      int               `json:"parcels_with_shore,omitempty"`
	Unusable     int               `json:"unusable"`
	Outputs      []out.Record      `json:"outputs"`
}

type settings struct {
	SearchRadius float64 `json:"search_radius_ft"`
	Opening      float64 `json:"opening_shown_ft"`
	Every        float64 `json:"opening_asked_every_ft"`
	Unverified   bool    `json:"unverified_notices"`
	NoRepair     bool    `json:"no_repair"`
	Grid         string  `json:"stakeout_crs,omitempty"`
}

type bookRecord struct {
	Book      string         `json:"book"`
	Authority string         `json:"authority"`
	Edition   string         `json:"edition"`
	From      string         `json:"in_force_from"`
	Until     string         `json:"in_force_until,omitempty"`
	Started   string         `json:"for_work_started_until,omitempty"`
	Caution   string         `json:"caution"`
	Limits    limitsRecord   `json:"limits"`
	Paths     map[string]int `json:"proposals_by_path,omitempty"`
	Parcels   map[string]int `json:"parcels_by_path,omitempty"` // of an envelope
	// Notices are what must be seen of every proposal on a path, "any path" for all.
	Notices map[string][]string `json:"notices,omitempty"`
	// Conditions are what the paths taken demand and nothing here has checked.
	Conditions map[string][]string `json:"conditions_not_checked,omitempty"`
}

const caution = "Screening only: not a survey, a legal opinion or a design. The published rule, the permitting office and licensed practice decide."

func (r *run) settings() settings {
	opening, every := r.books.Shown()
	return settings{roundNoise(r.radius / job.Foot), roundNoise(opening / job.Foot), roundNoise(every / job.Foot), r.unverified, r.job.NoRepair, r.field.gridName()}
}

// writeManifest says what a screening was made of.
func (r *run) writeManifest(to out.Outputs) error {
	m := manifest{
		Command:  "screen",
		Settings: r.settings(),
		Unstated: r.unstatedAccuracy(), Proposals: r.report.Proposals, Unusable: r.report.Unusable,
		Limits: &limitsRecord{r.report.Limits, r.report.Unread}, Idle: r.report.Idle, NoLayer: r.report.NoLayer, Datums: r.report.Datums, Doubts: r.report.Doubts,
		Outputs: r.out.Records(),
	}
	for _, b := range r.books.Live() {
		m.Books = append(m.Books, r.bookRecord(b))
	}
	return r.opened.writeManifest(to, m)
}

// writeManifest writes run.json, with what holds of any command.
func (o *opened) writeManifest(to out.Outputs, m manifest) error {
	m.Tool, m.Version, m.Caution, m.DecisionDate = "waterward", o.options.Version, caution, o.job.DecisionDate.Format(time.DateOnly)
	m.Inputs = o.inputs()
	page, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return err
	}
	file, err := to.Create(out.Manifest)
	if err != nil {
		return err
	}
	if _, err := file.Write(append(text.JSON(page), '\n')); err != nil {
		file.Close()
		return err
	}
	return file.Close()
}

// recordOf is what holds of a book in any run.
func recordOf(b *rules.Book) bookRecord {
	return bookRecord{
		Book: b.Name, Authority: b.Authority, Edition: b.Edition, Caution: b.Caution,
		From: job.DayText(b.From), Until: job.DayText(b.Until), Limits: limitsOf(b),
	}
}

func (r *run) bookRecord(b *rules.Book) bookRecord {
	made := recordOf(b)
	made.Paths = r.paths[b]
	if b.Started != nil {
		made.Started = job.DayText(b.Started.Until)
	}
	note := func(path string, notices []*rules.Notice) {
		for _, n := range notices {
			if len(n.When) == 0 && r.shows(n.Evidence) {
				if made.Notices == nil {
					made.Notices = map[string][]string{}
				}
				made.Notices[path] = append(made.Notices[path], n.String())
			}
		}
	}
	if len(r.paths[b]) > 0 {
		note("any path", b.Notices)
	}
	for _, path := range b.Paths {
		if r.paths[b][path.ID]+r.paths[b][path.ID+waived] == 0 {
			continue
		}
		note(path.ID, path.Notices)
		for _, c := range path.Conditions {
			if made.Conditions == nil {
				made.Conditions = map[string][]string{}
			}
			made.Conditions[path.ID] = append(made.Conditions[path.ID], c.String())
		}
	}
	return made
}

// unstatedAccuracy lists the layers of which some feature states no accuracy.
func (r *run) unstatedAccuracy() []string {
	made := []string{}
	for _, l := range r.layers.All() {
		if l.Name == "parcels" || l.Name == "shoreline" {
			continue // nothing is measured to them
		}
		for _, it := range l.Items {
			if it.Accuracy != it.Accuracy {
				made = append(made, l.Name)
				break
			}
		}
	}
	return made
}

// limitsRecord says how many limits there are and how many of them do not rest on the rule's
// own text.
type limitsRecord struct {
	Used   int `json:"used"`
	Unread int `json:"not_from_the_rule_text"`
}

func limitsOf(b *rules.Book) limitsRecord {
	all, unread := b.Limits()
	return limitsRecord{all, unread}
}
