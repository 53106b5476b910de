package screening

import (
	"encoding/json"
	"time"
)

// envelopeManifest is run.json of an envelope run.
type envelopeManifest struct {
	Tool         string            `json:"tool"`
	Version      string            `json:"version"`
	Caution      string            `json:"caution"`
	DecisionDate string            `json:"decision_date"`
	Settings     envelopeSettings  `json:"settings"`
	Structure    map[string]string `json:"structure"`
	Books        []bookRecord      `json:"books"`
	Idle         []string          `json:"books_that_decide_nothing,omitempty"`
	Doubts       []string          `json:"layers_that_may_mislead,omitempty"`
	Inputs       []*inputRecord    `json:"inputs"`
	Parcels      int               `json:"parcels_with_shore"`
	Unusable     int               `json:"unusable"`
	Outputs      []outputRecord    `json:"outputs"`
}

type envelopeSettings struct {
	Width     float64 `json:"width_ft"`
	Least     float64 `json:"least_length_ft"`
	Reach     float64 `json:"reach_ft"`
	Tolerance float64 `json:"tolerance_ft"`
	Radius    float64 `json:"search_radius_ft"`
	NoRepair  bool    `json:"no_repair"`
}

func writeEnvelopeManifest(e *envelope, job *Job, shelf *shelf, log *inputLog, sums tally, report *EnvelopeReport, out *envelopeWriters, outputs Outputs, version string) error {
	s := e.settings
	m := envelopeManifest{
		Tool: "waterward", Version: version, Caution: caution, DecisionDate: job.DecisionDate.Format(time.DateOnly),
		Settings: envelopeSettings{
			roundNoise(s.Width.Metres / foot), roundNoise(s.Least.Metres / foot), roundNoise(s.Reach.Metres / foot),
			roundNoise(s.Tolerance.Metres / foot), roundNoise(e.radius / foot), job.NoRepair,
		},
		Structure: s.Structure, Idle: report.Idle, Doubts: report.Doubts, Inputs: log.sorted(), Parcels: report.Parcels, Unusable: report.Unusable,
	}
	for i, b := range shelf.current {
		m.Books = append(m.Books, bookRecord{
			Parcels: sums.byPath(e.books[i].Authority),
			Book:    b.Name, Authority: b.Authority, Edition: b.Edition, Caution: b.Caution,
			From: day(b.From), Until: day(b.Until), Limits: limitsOf(b),
		})
	}
	for _, in := range m.Inputs {
		e.layers.stated(in)
	}
	for _, o := range out.files {
		m.Outputs = append(m.Outputs, o.record())
	}
	text, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return err
	}
	return writeManifest(outputs, text)
}
