package screening

import (
	"cmp"
	"fmt"
	"math"
	"strings"
	"time"

	"waterward/geo"
)

// proposal is one proposed structure as its feature states it, lengths in
// metres, NaN if not stated.
type proposal struct {
	feature       *geo.Feature
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
	levelled      float64   // accuracy of its elevations
	statedValues  []float64 // in the order of statedMeasures
	started       time.Time // when work began or was contracted; zero if not stated
	footprint     *geo.Footprint
	err           error // why it cannot be screened
}

// newProposal reads a proposal; a fault is kept in it, so that it becomes a row
// with its reason.
func newProposal(f *geo.Feature, source ProposalsSource) *proposal {
	p := &proposal{
		feature: f, file: source.File, id: f.ID, words: map[string]string{},
		accuracy: source.Accuracy.OrNaN(), crest: math.NaN(), wetland: math.NaN(), fill: math.NaN(), crestWidth: math.NaN(), highTideLine: math.NaN(), unitLength: math.NaN(), voids: math.NaN(), settlement: math.NaN(), levelled: math.NaN(),
	}
	if p.id == "" {
		p.id = fmt.Sprintf("#%d", f.Number)
	}
	fail := func(wrong, remedy string) {
		p.err = &geo.FeatureError{File: source.File, Number: f.Number, ID: f.ID, Wrong: wrong, Remedy: remedy}
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
	var width, diameter float64
	numbers := []numberOf{
		{"crest_elev_ft", &p.crest, false}, {"wetland_elev_ft", &p.wetland, false},
		{"fill_elev_ft", &p.fill, false}, {"high_tide_line_elev_ft", &p.highTideLine, false},
		{"unit_length_ft", &p.unitLength, true}, {"void_pct", &p.voids, true}, {"settlement_ft", &p.settlement, true},
		{"width_ft", &width, true}, {"diameter_ft", &diameter, true},
		{"crest_width_ft", &p.crestWidth, true}, {"accuracy_ft", &p.accuracy, true}, {"elevation_accuracy_ft", &p.levelled, true},
	}
	p.statedValues = make([]float64, len(statedMeasures))
	for i, m := range statedMeasures {
		p.statedValues[i] = math.NaN()
		// A landward edge may lie landward of the line.
		numbers = append(numbers, numberOf{m.property, &p.statedValues[i], m.measure != "mtl_landward_edge"})
	}
	for _, n := range numbers {
		if err := n.read(f, source.Properties); err != nil {
			fail(err.Error(), "correct the property")
			return p
		}
	}
	if f.Text("made_by") == madeBy && f.Text("accuracy_ft") == "0" {
		p.accuracy = 0
	}
	switch fill := strings.ToLower(p.words["fill"]); fill {
	case "true", "yes":
		p.words["fill"] = "yes"
	case "false", "no":
		p.words["fill"] = "no"
	case "":
	default:
		fail(fmt.Sprintf("fill is %.40q", p.words["fill"]), `write "yes" if fill is proposed behind the structure, "no" if none is`)
		return p
	}
	var err error
	if p.beds, err = source.Properties.numbers(f, "bed_elev_ft"); err != nil {
		fail(err.Error(), "give one elevation, or a list of them along the structure")
		return p
	}
	if text := p.words["started"]; text != "" {
		day, err := ParseDay(text)
		if err != nil {
			fail("started: "+err.Error(), "correct the property")
			return p
		}
		p.started = day.Time
	}
	fp, err := geo.NewFootprint(f.Geometry, width, diameter)
	if err != nil {
		fail(err.Error(), "redraw it: rings closed and not crossing, holes inside, parts apart")
		return p
	}
	p.footprint = fp
	return p
}

// madeBy is how candidates that the tool has drawn say so. They lie where they are drawn,
// so that their accuracy_ft of 0 is what it says: in what others write it is a number that
// nobody has filled in.
const madeBy = "waterward envelope"

// numberOf is a number among the properties of a proposal.
type numberOf struct {
	name     string
	into     *float64 // SI
	positive bool
}

func (n numberOf) read(f *geo.Feature, fields Fields) error {
	value, ok, err := fields.number(f, n.name)
	if err == nil && ok && n.positive && value < 0 {
		err = fmt.Errorf("%s is %g, which is less than nothing", n.name, value/perUnit(n.name))
	}
	if err == nil && ok {
		*n.into = value
	}
	return err
}

// bed is the mean elevation of the bottom, NaN if not stated.
func (p *proposal) bed() float64 {
	sum := 0.0
	for _, b := range p.beds {
		sum += b
	}
	return sum / float64(len(p.beds))
}
