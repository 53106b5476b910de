package site

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"strings"
	"time"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/geo/geojson"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/levels"
)

// Proposal is one proposed structure as its feature states it, lengths in
// metres, NaN if not stated.
type Proposal struct {
	Of            *Submission
	Variants      []*Proposal // the same structure as those of its parts state it that do so otherwise
	ID            string
	Words         map[string]string // kind, material, datum, station, started, fill, by name; empty if not stated
	Crest         float64           // elevation above datum
	beds          []float64         // elevations of the bottom at equal steps along it, above datum; nil if not stated
	wetland, fill float64           // elevations of the adjacent wetland and of the fill behind, above datum
	crestWidth    float64
	highTideLine  float64 // elevation above datum
	unitLength    float64 // of one module along the structure
	voids         float64 // share of the fill that is not solid
	settlement    float64 // by which the crest is expected to sink
	Accuracy      float64
	drawnHere     bool      // on the datum of its layers, by this tool
	levelled      float64   // accuracy of its elevations
	StatedValues  []float64 // in the order of statedMeasures
	Started       time.Time // when work began or was contracted, at the earliest; zero if not stated
	StartedBy     time.Time // the same, at the latest
	StartedAs     string    // what stands there and is no date
	doubts        []string  // what keeps any decision on it from being firm
	width         float64   // of lines, 0 if not stated
	diameter      float64   // of points, 0 if not stated
	drawn         []geo.Part
	Footprint     *geo.Footprint
	Err           error // why it cannot be screened
}

// NewProposal reads a proposal; a fault is kept in it, so that it becomes a row
// with its reason.
func NewProposal(of *Submission) *Proposal {
	p := readProposal(of)
	if p.Err != nil || of.Aside != "" {
		return p
	}
	if of.Parts == nil {
		p.drawn = []geo.Part{p.part()}
	} else if p.Err = p.join(); p.Err != nil {
		return p
	}
	fp, err := geo.NewFootprintOf(p.drawn...)
	if err != nil {
		remedy := "redraw it: rings closed and not crossing, holes inside, parts apart"
		if excess := (*geo.ExcessError)(nil); errors.As(err, &excess) {
			remedy = "simplify it"
		}
		p.Err = of.fault(err.Error(), remedy)
		return p
	}
	p.Footprint = fp
	if most := max(1, mostRestated/fp.Edges()); len(p.Variants) > most {
		p.doubts = append(p.doubts, fmt.Sprintf("its parts state %d different things of it, of which the first %d are looked at: state the same of all, or give those that differ ids of their own and one project", len(p.Variants)+1, most+1))
		p.Variants = p.Variants[:most]
	}
	for _, v := range p.Variants {
		v.ID, v.Accuracy, v.drawn, v.Footprint = v.Of.PartTitle(), p.Accuracy, p.drawn, fp
		v.Of = &Submission{Feature: v.Of.Feature, From: v.Of.From, Order: of.Order, Parts: of.Parts}
	}
	return p
}

// mostRestated is how many edges are measured over again for what the parts of a structure
// state otherwise: all of it for each, and as many take some two seconds.
const mostRestated = 100_000

// ofTheStructure is what parts of one structure cannot state each for itself.
var ofTheStructure = []string{"project", "site", "alternative", "started"}

// join takes the parts of a structure together: what is drawn, how good that is, and the
// structure as each of them states it.
func (p *Proposal) join() error {
	of := p.Of
	known := map[string]bool{}
	for _, part := range of.Parts {
		own := p
		if part != of {
			own = readProposal(part)
		}
		if own.Err != nil {
			return of.fault(fmt.Sprintf("a part of it cannot be used: %v", own.Err), "correct that part")
		}
		p.drawn = append(p.drawn, own.part())
		p.Accuracy = math.Max(p.Accuracy, own.Accuracy) // NaN stays
		if shift := crs.DatumShift(part.CRS().Datum, of.CRS().Datum); part != of && shift > 0 {
			p.doubts = append(p.doubts, fmt.Sprintf("its parts are drawn on %s and on %s, which may lie %s apart: draw them on one", of.CRS().Datum, part.CRS().Datum, job.FeetText(shift)))
		}
		for _, name := range ofTheStructure {
			first, _ := of.Text(name)
			if text, _ := part.Text(name); !rules.SameWord(first, text) {
				p.doubts = append(p.doubts, fmt.Sprintf("its parts state different things of %s (%.40q and %.40q): say which holds of the whole", name, first, text))
			}
		}
		if stated := part.stated(); !known[stated] {
			known[stated] = true
			if own != p {
				p.Variants = append(p.Variants, own)
			}
		}
	}
	return nil
}

// part is what the feature itself draws, as geo takes it.
func (p *Proposal) part() geo.Part {
	return geo.Part{Geometry: p.Of.Geometry, Width: p.width, Diameter: p.diameter}
}

// readProposal reads what a feature states.
func readProposal(of *Submission) *Proposal {
	f, source := of.Feature, of.From
	p := &Proposal{
		Of: of, ID: of.Title(), Words: map[string]string{},
		Accuracy: source.Accuracy.OrNaN(), Crest: math.NaN(), wetland: math.NaN(), fill: math.NaN(), crestWidth: math.NaN(), highTideLine: math.NaN(), unitLength: math.NaN(), voids: math.NaN(), settlement: math.NaN(), levelled: math.NaN(),
	}
	fail := func(wrong, remedy string) { p.Err = of.fault(wrong, remedy) }
	var unclear error
	words := []string{"datum", "station", "started"}
	for _, r := range statedWords {
		words = append(words, r.Property)
	}
	for _, name := range words {
		text, err := source.Properties.Text(f, name)
		unclear = cmp.Or(unclear, err)
		p.Words[name] = strings.TrimSpace(text)
	}
	switch {
	case of.Aside != "":
		return p
	case of.Refused != nil:
		p.Err = of.Refused
		return p
	case f.Err != nil:
		p.Err = f.Err
		return p
	case unclear != nil:
		fail(unclear.Error(), "correct it, or give the value a meaning in the job")
		return p
	}
	numbers := []numberOf{
		{"crest_elev_ft", &p.Crest, job.Elevations}, {"wetland_elev_ft", &p.wetland, job.Elevations},
		{"fill_elev_ft", &p.fill, job.Elevations}, {"high_tide_line_elev_ft", &p.highTideLine, job.Elevations},
		{"unit_length_ft", &p.unitLength, job.Widths}, {"void_pct", &p.voids, job.Shares}, {"settlement_ft", &p.settlement, job.Sinkings},
		{"width_ft", &p.width, job.Widths}, {"diameter_ft", &p.diameter, job.Widths},
		{"crest_width_ft", &p.crestWidth, job.Widths}, {"accuracy_ft", &p.Accuracy, job.Positive}, {"elevation_accuracy_ft", &p.levelled, job.Positive},
	}
	p.StatedValues = make([]float64, len(StatedNumbers))
	for i, m := range StatedNumbers {
		p.StatedValues[i] = math.NaN()
		numbers = append(numbers, numberOf{m.Property, &p.StatedValues[i], m.Within})
	}
	for _, n := range numbers {
		if err := n.read(f, source.Properties); err != nil {
			fail(err.Error(), "correct the property")
			return p
		}
	}
	if f.Text("made_by") == layers.MadeBy && f.Text("accuracy_ft") == "0" {
		p.Accuracy, p.drawnHere = 0, true
	}
	switch rules.Plain(p.Words["fill"]) {
	case "true", "t", "y", "1":
		p.Words["fill"] = "yes"
	case "false", "f", "n", "0", "none", "nofill":
		p.Words["fill"] = "no"
	}
	if p.Words["fill"] == "no" && !math.IsNaN(p.fill) {
		p.doubts = append(p.doubts, "it states fill_elev_ft, the height of a fill, and that none is proposed: say which holds")
	}
	p.Words["datum"] = levels.Word(p.Words["datum"])
	var err error
	if p.beds, err = source.Properties.Numbers(f, "bed_elev_ft"); err != nil {
		fail(err.Error(), "give one elevation, or a list of them along the structure")
		return p
	}
	if err := p.heights(); err != nil {
		fail(err.Error(), "correct the elevations, all in one datum")
		return p
	}
	if text := p.Words["started"]; text != "" {
		var ok bool
		if p.Started, p.StartedBy, ok = job.ParsePeriod(text); !ok {
			p.StartedAs = text
		}
	}
	return p
}

// numberOf is a number among the properties of a proposal.
type numberOf struct {
	name   string
	into   *float64 // SI
	within job.Span
}

func (n numberOf) read(f *geojson.Feature, fields job.Fields) error {
	value, ok, err := fields.Number(f, n.name)
	if err == nil && ok {
		err = n.within.Refuses(n.name, value)
	}
	if err == nil && ok {
		*n.into = value
	}
	return err
}

// heights refuses elevations of the bottom that cannot be, and a crest that does not
// stand over them.
func (p *Proposal) heights() error {
	for _, bed := range p.beds {
		if err := job.Elevations.Refuses("bed_elev_ft", bed); err != nil {
			return err
		}
	}
	if bed := p.Bed(); p.Crest <= bed { // not so where either is not stated
		return fmt.Errorf("its crest (crest_elev_ft %g) does not stand above its own bed (bed_elev_ft %g)", round(p.Crest/job.Foot), round(bed/job.Foot))
	}
	return nil
}

// round keeps what an elevation in feet is told with.
func round(feet float64) float64 { return math.Round(feet*100) / 100 }

// Bed is the mean elevation of the bottom, NaN if not stated.
func (p *Proposal) Bed() float64 {
	sum := 0.0
	for _, b := range p.beds {
		sum += b
	}
	return sum / float64(len(p.beds))
}
