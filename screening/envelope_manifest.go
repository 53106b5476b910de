package screening

import (
	"encoding/json"
	"time"

	"waterward/screening/envelope"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/out"
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
	Inputs       []*inputs.Record  `json:"inputs"`
	Parcels      int               `json:"parcels_with_shore"`
	Unusable     int               `json:"unusable"`
	Outputs      []out.Record      `json:"outputs"`
}

type envelopeSettings struct {
	Width     float64 `json:"width_ft"`
	Least     float64 `json:"least_length_ft"`
	Reach     float64 `json:"reach_ft"`
	Tolerance float64 `json:"tolerance_ft"`
	Radius    float64 `json:"search_radius_ft"`
	NoRepair  bool    `json:"no_repair"`
}

func writeEnvelopeManifest(e *envelope.Search, j *job.Job, shelf *inputs.BookSet, log *inputs.Log, sums tally, report *EnvelopeReport, made *envelopeWriters, outputs out.Outputs, version string) error {
	s := e.Settings
	m := envelopeManifest{
		Tool: "waterward", Version: version, Caution: caution, DecisionDate: j.DecisionDate.Format(time.DateOnly),
		Settings: envelopeSettings{
			roundNoise(s.Width.Metres / job.Foot), roundNoise(s.Least.Metres / job.Foot), roundNoise(s.Reach.Metres / job.Foot),
			roundNoise(s.Tolerance.Metres / job.Foot), roundNoise(e.Radius / job.Foot), j.NoRepair,
		},
		Structure: s.Structure, Idle: report.Idle, Doubts: report.Doubts, Inputs: log.Sorted(), Parcels: report.Parcels, Unusable: report.Unusable,
	}
	for i, b := range shelf.Current {
		m.Books = append(m.Books, bookRecord{
			Parcels: sums.byPath(e.Books[i].Authority),
			Book:    b.Name, Authority: b.Authority, Edition: b.Edition, Caution: b.Caution,
			From: job.DayText(b.From), Until: job.DayText(b.Until), Limits: limitsOf(b),
		})
	}
	for _, in := range m.Inputs {
		e.Layers.Stated(in)
	}
	for _, o := range made.files {
		m.Outputs = append(m.Outputs, o.Record())
	}
	text, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return err
	}
	return writeManifest(outputs, text)
}
