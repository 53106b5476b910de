package screening

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"waterward/geo/crs"
	"waterward/geo/geojson"
	"waterward/screening/envelope"
	"waterward/screening/front"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/out"
	"waterward/screening/site"
	"waterward/screening/work"
)

// envelopeWriters are the outputs of an envelope run.
type envelopeWriters struct {
	files                                   []*out.File
	envelope, frontage, riparian, candidate *out.Collection
	parcels, summary                        *out.Table
}

func newEnvelopeWriters(outputs out.Outputs, columns []envelope.Column, system *crs.System) (*envelopeWriters, error) {
	w := &envelopeWriters{}
	for _, name := range []string{"envelope.geojson", "frontage.geojson", "riparian.geojson", "candidates.geojson", "parcels.csv", "summary.csv"} {
		o, err := out.Create(outputs, name)
		if err != nil {
			w.close()
			return nil, err
		}
		w.files = append(w.files, o)
	}
	w.envelope, w.frontage = &out.Collection{Out: w.files[0]}, &out.Collection{Out: w.files[1]}
	w.riparian, w.candidate = &out.Collection{Out: w.files[2]}, &out.Collection{Out: w.files[3]}
	if system.Datum != crs.WGS84 { // which needs no word
		member := geojson.Member{Key: "crs", Raw: json.RawMessage(fmt.Sprintf(`{"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::%d"}}`, system.Code))}
		for _, c := range []*out.Collection{w.envelope, w.frontage, w.riparian, w.candidate} {
			c.Before = []geojson.Member{member}
		}
	}
	header := []string{"parcel_id", "shared_with"}
	for _, c := range columns {
		header = append(header, c.Name)
	}
	w.parcels = out.NewTable(w.files[4], header)
	w.summary = out.NewTable(w.files[5], []string{"water", "authority", "outcome", "parcels", "frontage_mi"})
	return w, nil
}

func (w *envelopeWriters) close() error {
	var first error
	for _, o := range w.files {
		first = cmp.Or(first, o.To.Close())
	}
	return first
}

func (w *envelopeWriters) finish() error {
	for _, c := range []*out.Collection{w.envelope, w.frontage, w.riparian, w.candidate} {
		c.End(nil)
	}
	w.parcels.Flush()
	w.summary.Flush()
	for _, err := range []error{w.envelope.Err, w.frontage.Err, w.riparian.Err, w.candidate.Err, w.parcels.Error(), w.summary.Error()} {
		if err != nil {
			return err
		}
	}
	return w.close()
}

// parcelRows is a parcel's result as the outputs take it, made by the workers.
type parcelRows struct {
	envelope, frontage, riparian, candidates [][]byte
	parcels                                  [][]string
	water                                    string
	outcomes                                 []string // by book
	shore                                    float64  // metres
	wrong                                    string
}

func parcelRowsOf(e *envelope.Search, r *envelope.Result, columns []envelope.Column) *parcelRows {
	labels := e.Labels(r.Of)
	shared := strings.Join(labels[1:], "; ")
	made := &parcelRows{water: e.Water(r), shore: r.Frontage(), wrong: envelope.ErrorText(r.Wrong())}
	if why := r.Of.Fronts[0].Why; why != "" {
		r.Err = errors.New(why)
	}
	made.frontage = append(made.frontage, e.FrontFeature(r, labels[0], shared))
	if r.Of.Item < 0 {
		outcome := "nobody's"
		if r.Err != nil {
			outcome = "not known"
		}
		for range e.Books {
			made.outcomes = append(made.outcomes, outcome)
		}
		return made
	}
	cells := make([]string, len(columns))
	for i, c := range columns {
		cells[i] = c.Cell(r).Table
	}
	for i, label := range labels {
		others := slices.Concat(labels[:i], labels[i+1:])
		made.parcels = append(made.parcels, append([]string{out.Text(label).Table, out.Text(strings.Join(others, "; ")).Table}, cells...))
	}
	for i := range e.Books {
		outcome := "no result"
		if r.Best != nil {
			outcome = r.Best[i].Path.ID
		}
		made.outcomes = append(made.outcomes, outcome)
	}
	if r.Err != nil {
		return made
	}
	made.envelope = r.AreaFeatures(labels[0], shared)
	made.riparian = r.LateralFeatures(labels[0])
	for _, b := range r.Best {
		if c := b.Candidate; c != nil {
			made.candidates = append(made.candidates, c.Feature.Annotated([]geojson.Member{
				{Key: "parcel_id", Raw: out.Text(labels[0]).JSON},
				{Key: "certainty", Raw: out.Text(string(c.Decision.Certainty)).JSON},
				{Key: "overall_length_ft", Raw: out.Number(c.Length/job.Foot, 2).JSON},
			}))
		}
	}
	return made
}

// tally adds up shore and parcels by water body, authority and outcome.
type tally map[[3]string]*struct {
	parcels int
	metres  float64
}

func (t tally) add(e *envelope.Search, r *parcelRows, parcels int) {
	for i, b := range e.Books {
		key := [3]string{r.water, b.Authority, r.outcomes[i]}
		if t[key] == nil {
			t[key] = &struct {
				parcels int
				metres  float64
			}{}
		}
		t[key].parcels += parcels
		t[key].metres += r.shore
	}
}

// byPath is how many parcels an authority's paths have.
func (t tally) byPath(authority string) map[string]int {
	made := map[string]int{}
	for key, sum := range t {
		if key[1] == authority && sum.parcels > 0 {
			made[key[2]] += sum.parcels
		}
	}
	return made
}

func (t tally) write(to *out.Table) {
	var keys [][3]string
	for key := range t {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(a, b [3]string) int { return slices.Compare(a[:], b[:]) })
	for _, key := range keys {
		to.Write([]string{out.Text(key[0]).Table, key[1], key[2], fmt.Sprint(t[key].parcels), job.Fixed(t[key].metres/job.Mile, 3)})
	}
}

// unusable writes a row with its reason for each parcel that could not be used.
func unusableParcels(e *envelope.Search, made *envelopeWriters, report *EnvelopeReport, columns []envelope.Column) {
	for _, d := range e.Layers.Layer("parcels").Geo.Defects {
		row := make([]string, 2+len(columns))
		row[0] = out.Text(cmp.Or(d.Err.ID, "#"+strconv.Itoa(d.Err.Number))).Table
		row[len(row)-1] = out.Text(d.Err.Error()).Table
		made.parcels.Write(row)
		report.Parcels++
		report.Unusable++
	}
}

// unowned says why it cannot be told who fronts some of the shore, once for each reason.
func unownedShore(fronts []front.Front, report *EnvelopeReport) {
	metres, order := map[string]float64{}, []string{}
	for _, f := range fronts {
		if f.Why == "" {
			continue
		}
		if metres[f.Why] == 0 {
			order = append(order, f.Why)
		}
		metres[f.Why] += f.To - f.From
	}
	for _, why := range order {
		report.Messages = append(report.Messages, fmt.Sprintf("who fronts %s of shore cannot be told: %s", job.FeetText(metres[why]), why))
	}
}

// run works out every holding and writes what came of it.
func runEnvelope(ctx context.Context, e *envelope.Search, fronts []front.Front, j *job.Job, shelf *inputs.BookSet, log *inputs.Log, outputs out.Outputs, options Options) (*EnvelopeReport, error) {
	parcels := e.Layers.Layer("parcels")
	all := envelope.Holdings(fronts, len(parcels.Items))
	columns := e.ParcelColumns()
	made, err := newEnvelopeWriters(outputs, columns, e.System)
	if err != nil {
		return nil, err
	}
	report := &EnvelopeReport{Idle: shelf.IdleText(), Warnings: log.Warnings(), Doubts: append(e.Layers.Doubts(e.Radius), site.Contradicted(e.Layers, e.Radius)...)}
	for _, l := range e.Layers.All() {
		for _, d := range l.Geo.Defects {
			report.Messages = append(report.Messages, d.Err.Error())
		}
		for _, p := range l.Repairs {
			report.Repairs = append(report.Repairs, p.Text)
		}
	}
	sums := tally{}
	done := 0
	err = work.InOrder(ctx, slices.Values(all), options.Workers, func(h envelope.Holding) *parcelRows { return parcelRowsOf(e, e.Work(h), columns) }, func(r *parcelRows) error {
		for _, f := range r.envelope {
			made.envelope.Add(f)
		}
		for _, f := range r.frontage {
			made.frontage.Add(f)
		}
		for _, f := range r.riparian {
			made.riparian.Add(f)
		}
		for _, f := range r.candidates {
			made.candidate.Add(f)
		}
		for _, row := range r.parcels {
			made.parcels.Write(row)
			report.Parcels++
		}
		if r.wrong != "" {
			report.Unusable++
			report.Messages = append(report.Messages, fmt.Sprintf("%s: %s", r.parcels[0][0], r.wrong))
		}
		sums.add(e, r, len(r.parcels))
		done++
		if options.Progress != nil {
			options.Progress(done, len(all))
		}
		return made.envelope.Err
	})
	unusableParcels(e, made, report, columns)
	unownedShore(fronts, report)
	if err == nil {
		sums.write(made.summary)
		err = made.finish()
	}
	if err != nil {
		made.close()
		return nil, err
	}
	return report, writeEnvelopeManifest(e, j, shelf, log, sums, report, made, outputs, options.Version)
}
