package screening

import (
	"cmp"
	"fmt"
	"math"
	"strings"
	"time"

	"waterward/geo"
	"waterward/geo/geojson"
	"waterward/screening/levels"
)

// proposal is one proposed structure as its feature states it, lengths in
// metres, NaN if not stated.
type proposal struct {
	feature       *geojson.Feature
	file          string
	id            string
	words         map[string]string // kind, material, datum, station, started, fill, by name; empty if not stated
	crest         float64           // elevation above datum
	beds          []float64         // elevations of the bottom at equal steps along it, above datum; nil if not stated
	wetland, fill float64           // elevations of the adjacent wetland and of the fill behind, above datum
	crestWidth    float64
	highTideLine  float64 // elevation above datum
	unitLength    float64 // of one module along the structure
	voids         float64 // share of the fill that is not solid
	settlement    float64 // by which the crest is expected to sink
	accuracy      float64
	drawnHere     bool      // on the datum of its layers, by this tool
	levelled      float64   // accuracy of its elevations
	statedValues  []float64 // in the order of statedMeasures
	started       time.Time // when work began or was contracted, at the earliest; zero if not stated
	startedBy     time.Time // the same, at the latest
	startedAs     string    // what stands there and is no date
	doubts        []string  // what keeps any decision on it from being firm
	width         float64   // of lines, 0 if not stated
	diameter      float64   // of points, 0 if not stated
	footprint     *geo.Footprint
	err           error // why it cannot be screened
}

// newProposal reads a proposal; a fault is kept in it, so that it becomes a row
// with its reason.
func newProposal(f *geojson.Feature, source ProposalsSource) *proposal {
	p := &proposal{
		feature: f, file: source.File, id: f.ID, words: map[string]string{},
		accuracy: source.Accuracy.OrNaN(), crest: math.NaN(), wetland: math.NaN(), fill: math.NaN(), crestWidth: math.NaN(), highTideLine: math.NaN(), unitLength: math.NaN(), voids: math.NaN(), settlement: math.NaN(), levelled: math.NaN(),
	}
	if p.id == "" {
		p.id = fmt.Sprintf("#%d", f.Number)
	}
	fail := func(wrong, remedy string) {
		p.err = &geojson.FeatureError{File: source.File, Number: f.Number, ID: f.ID, Wrong: wrong, Remedy: remedy}
	}
	var unclear error
	for _, name := range []string{"kind", "material", "datum", "station", "started", "fill"} {
		text, err := source.Properties.text(f, name)
		unclear = cmp.Or(unclear, err)
		p.words[name] = strings.TrimSpace(text)
	}
	switch {
	case f.Err != nil:
		p.err = f.Err
		return p
	case unclear != nil:
		fail(unclear.Error(), "correct it, or give the value a meaning in the job")
		return p
	}
	numbers := []numberOf{
		{"crest_elev_ft", &p.crest, elevations}, {"wetland_elev_ft", &p.wetland, elevations},
		{"fill_elev_ft", &p.fill, elevations}, {"high_tide_line_elev_ft", &p.highTideLine, elevations},
		{"unit_length_ft", &p.unitLength, widths}, {"void_pct", &p.voids, shares}, {"settlement_ft", &p.settlement, sinkings},
		{"width_ft", &p.width, widths}, {"diameter_ft", &p.diameter, widths},
		{"crest_width_ft", &p.crestWidth, widths}, {"accuracy_ft", &p.accuracy, positive}, {"elevation_accuracy_ft", &p.levelled, positive},
	}
	p.statedValues = make([]float64, len(statedMeasures))
	for i, m := range statedMeasures {
		p.statedValues[i] = math.NaN()
		numbers = append(numbers, numberOf{m.property, &p.statedValues[i], m.within})
	}
	for _, n := range numbers {
		if err := n.read(f, source.Properties); err != nil {
			fail(err.Error(), "correct the property")
			return p
		}
	}
	if f.Text("made_by") == madeBy && f.Text("accuracy_ft") == "0" {
		p.accuracy, p.drawnHere = 0, true
	}
	switch strings.ToLower(p.words["fill"]) {
	case "true", "y", "1":
		p.words["fill"] = "yes"
	case "false", "n", "0", "none":
		p.words["fill"] = "no"
	}
	if p.words["fill"] == "no" && !math.IsNaN(p.fill) {
		p.doubts = append(p.doubts, "it states fill_elev_ft, the height of a fill, and that none is proposed: say which holds")
	}
	p.words["datum"] = levels.Word(p.words["datum"])
	var err error
	if p.beds, err = source.Properties.numbers(f, "bed_elev_ft"); err != nil {
		fail(err.Error(), "give one elevation, or a list of them along the structure")
		return p
	}
	if err := p.heights(); err != nil {
		fail(err.Error(), "correct the elevations, all in one datum")
		return p
	}
	if text := p.words["started"]; text != "" {
		var ok bool
		if p.started, p.startedBy, ok = parsePeriod(text); !ok {
			p.startedAs = text
		}
	}
	fp, err := geo.NewFootprint(f.Geometry, p.width, p.diameter)
	if err != nil {
		fail(err.Error(), "redraw it: rings closed and not crossing, holes inside, parts apart")
		return p
	}
	p.footprint = fp
	return p
}

// numberOf is a number among the properties of a proposal.
type numberOf struct {
	name   string
	into   *float64 // SI
	within span
}

func (n numberOf) read(f *geojson.Feature, fields Fields) error {
	value, ok, err := fields.number(f, n.name)
	if err == nil && ok {
		err = n.within.refuses(n.name, value)
	}
	if err == nil && ok {
		*n.into = value
	}
	return err
}

// heights refuses elevations of the bottom that cannot be, and a crest that does not
// stand over them.
func (p *proposal) heights() error {
	for _, bed := range p.beds {
		if err := elevations.refuses("bed_elev_ft", bed); err != nil {
			return err
		}
	}
	if bed := p.bed(); p.crest <= bed { // not so where either is not stated
		return fmt.Errorf("its crest (crest_elev_ft %g) does not stand above its own bed (bed_elev_ft %g)", round(p.crest/foot), round(bed/foot))
	}
	return nil
}

// round keeps what an elevation in feet is told with.
func round(feet float64) float64 { return math.Round(feet*100) / 100 }

// bed is the mean elevation of the bottom, NaN if not stated.
func (p *proposal) bed() float64 {
	sum := 0.0
	for _, b := range p.beds {
		sum += b
	}
	return sum / float64(len(p.beds))
}

// part is the drawing of a proposal, as geo takes it.
func (p *proposal) part() geo.Part {
	return geo.Part{Geometry: p.feature.Geometry, Width: p.width, Diameter: p.diameter}
}

// together is the footprint of a proposal and the parts that adjoin it; nil if none does.
func together(p *proposal, parts []*proposal) *geo.Footprint {
	if len(parts) == 0 {
		return nil
	}
	drawn := []geo.Part{p.part()}
	for _, o := range parts {
		drawn = append(drawn, o.part())
	}
	fp, err := geo.NewFootprintOf(drawn...)
	if err != nil { // each was built by itself; together they are too large for one
		return nil
	}
	return fp
}
