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
)

// envelopeWriters are the outputs of an envelope run.
type envelopeWriters struct {
	files                                   []*output
	envelope, frontage, riparian, candidate *collection
	parcels, summary                        *table
}

func newEnvelopeWriters(outputs Outputs, columns []parcelColumn, system *crs.System) (*envelopeWriters, error) {
	w := &envelopeWriters{}
	for _, name := range []string{"envelope.geojson", "frontage.geojson", "riparian.geojson", "candidates.geojson", "parcels.csv", "summary.csv"} {
		o, err := create(outputs, name)
		if err != nil {
			w.close()
			return nil, err
		}
		w.files = append(w.files, o)
	}
	w.envelope, w.frontage = &collection{out: w.files[0]}, &collection{out: w.files[1]}
	w.riparian, w.candidate = &collection{out: w.files[2]}, &collection{out: w.files[3]}
	if system.Datum != crs.WGS84 { // which needs no word
		member := geojson.Member{Key: "crs", Raw: json.RawMessage(fmt.Sprintf(`{"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::%d"}}`, system.Code))}
		for _, c := range []*collection{w.envelope, w.frontage, w.riparian, w.candidate} {
			c.before = []geojson.Member{member}
		}
	}
	header := []string{"parcel_id", "shared_with"}
	for _, c := range columns {
		header = append(header, c.name)
	}
	w.parcels = newTable(w.files[4], header)
	w.summary = newTable(w.files[5], []string{"water", "authority", "outcome", "parcels", "frontage_mi"})
	return w, nil
}

func (w *envelopeWriters) close() error {
	var first error
	for _, o := range w.files {
		first = cmp.Or(first, o.to.Close())
	}
	return first
}

func (w *envelopeWriters) finish() error {
	for _, c := range []*collection{w.envelope, w.frontage, w.riparian, w.candidate} {
		c.end(nil)
	}
	w.parcels.Flush()
	w.summary.Flush()
	for _, err := range []error{w.envelope.err, w.frontage.err, w.riparian.err, w.candidate.err, w.parcels.Error(), w.summary.Error()} {
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

func parcelRowsOf(e *envelope, r *parcelResult, columns []parcelColumn) *parcelRows {
	labels := e.labels(r.of)
	shared := strings.Join(labels[1:], "; ")
	out := &parcelRows{water: e.water(r), shore: r.frontage(), wrong: errorText(r.wrong())}
	if why := r.of.fronts[0].why; why != "" {
		r.err = errors.New(why)
	}
	out.frontage = append(out.frontage, e.frontFeature(r, labels[0], shared))
	if r.of.item < 0 {
		outcome := "nobody's"
		if r.err != nil {
			outcome = "not known"
		}
		for range e.books {
			out.outcomes = append(out.outcomes, outcome)
		}
		return out
	}
	cells := make([]string, len(columns))
	for i, c := range columns {
		cells[i] = c.cell(r).table
	}
	for i, label := range labels {
		others := slices.Concat(labels[:i], labels[i+1:])
		out.parcels = append(out.parcels, append([]string{textCell(label).table, textCell(strings.Join(others, "; ")).table}, cells...))
	}
	for i := range e.books {
		outcome := "no result"
		if r.best != nil {
			outcome = r.best[i].path.ID
		}
		out.outcomes = append(out.outcomes, outcome)
	}
	if r.err != nil {
		return out
	}
	out.envelope = r.areaFeatures(labels[0], shared)
	out.riparian = r.lateralFeatures(labels[0])
	for _, b := range r.best {
		if c := b.candidate; c != nil {
			out.candidates = append(out.candidates, c.feature.Annotated([]geojson.Member{
				{Key: "parcel_id", Raw: textCell(labels[0]).json},
				{Key: "certainty", Raw: textCell(string(c.decision.Certainty)).json},
				{Key: "overall_length_ft", Raw: numberCell(c.length/foot, 2).json},
			}))
		}
	}
	return out
}

// tally adds up shore and parcels by water body, authority and outcome.
type tally map[[3]string]*struct {
	parcels int
	metres  float64
}

func (t tally) add(e *envelope, r *parcelRows, parcels int) {
	for i, b := range e.books {
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
	out := map[string]int{}
	for key, sum := range t {
		if key[1] == authority && sum.parcels > 0 {
			out[key[2]] += sum.parcels
		}
	}
	return out
}

func (t tally) write(to *table) {
	var keys [][3]string
	for key := range t {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(a, b [3]string) int { return slices.Compare(a[:], b[:]) })
	for _, key := range keys {
		to.Write([]string{textCell(key[0]).table, key[1], key[2], fmt.Sprint(t[key].parcels), formatFixed(t[key].metres/mile, 3)})
	}
}

// unusable writes a row with its reason for each parcel that could not be used.
func unusableParcels(e *envelope, out *envelopeWriters, report *EnvelopeReport, columns []parcelColumn) {
	for _, d := range e.layers.layer("parcels").geo.Defects {
		row := make([]string, 2+len(columns))
		row[0] = textCell(cmp.Or(d.Err.ID, "#"+strconv.Itoa(d.Err.Number))).table
		row[len(row)-1] = textCell(d.Err.Error()).table
		out.parcels.Write(row)
		report.Parcels++
		report.Unusable++
	}
}

// unowned says why it cannot be told who fronts some of the shore, once for each reason.
func unownedShore(fronts []front, report *EnvelopeReport) {
	metres, order := map[string]float64{}, []string{}
	for _, f := range fronts {
		if f.why == "" {
			continue
		}
		if metres[f.why] == 0 {
			order = append(order, f.why)
		}
		metres[f.why] += f.to - f.from
	}
	for _, why := range order {
		report.Messages = append(report.Messages, fmt.Sprintf("who fronts %s of shore cannot be told: %s", feetText(metres[why]), why))
	}
}

// run works out every holding and writes what came of it.
func runEnvelope(ctx context.Context, e *envelope, fronts []front, job *Job, shelf *shelf, log *inputLog, outputs Outputs, options Options) (*EnvelopeReport, error) {
	parcels := e.layers.layer("parcels")
	all := holdings(fronts, len(parcels.items))
	columns := e.parcelColumns()
	out, err := newEnvelopeWriters(outputs, columns, e.system)
	if err != nil {
		return nil, err
	}
	report := &EnvelopeReport{Idle: shelf.idleText(), Warnings: log.warnings(), Doubts: append(e.layers.doubts(e.radius), contradicted(e.layers, e.radius)...)}
	for _, l := range e.layers.all() {
		for _, d := range l.geo.Defects {
			report.Messages = append(report.Messages, d.Err.Error())
		}
		for _, p := range l.repairs {
			report.Repairs = append(report.Repairs, p.text)
		}
	}
	sums := tally{}
	done := 0
	err = inOrder(ctx, slices.Values(all), options.Workers, func(h holding) *parcelRows { return parcelRowsOf(e, e.work(h), columns) }, func(r *parcelRows) error {
		for _, f := range r.envelope {
			out.envelope.add(f)
		}
		for _, f := range r.frontage {
			out.frontage.add(f)
		}
		for _, f := range r.riparian {
			out.riparian.add(f)
		}
		for _, f := range r.candidates {
			out.candidate.add(f)
		}
		for _, row := range r.parcels {
			out.parcels.Write(row)
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
		return out.envelope.err
	})
	unusableParcels(e, out, report, columns)
	unownedShore(fronts, report)
	if err == nil {
		sums.write(out.summary)
		err = out.finish()
	}
	if err != nil {
		out.close()
		return nil, err
	}
	return report, writeEnvelopeManifest(e, job, shelf, log, sums, report, out, outputs, options.Version)
}
