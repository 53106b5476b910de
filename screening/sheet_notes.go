package screening

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// notedPlanes are the datums that a drawing names.
var notedPlanes = []string{"NAVD88", "NGVD29", "MHHW", "MHW", "MSL", "MLW", "MLLW"}

// datumNotes say in which datums the drawing is.
func (p *plan) datumNotes() []string {
	s := p.s
	datum := s.Proposal.Words["datum"]
	heights := "No vertical datum is stated."
	if datum != "" {
		heights = "Heights in ft " + datum + " as stated."
	}
	planes, station, away := s.DatumPlanes()
	var at []string
	for _, l := range planes {
		if l.Name != datum && slices.Contains(notedPlanes, l.Name) {
			at = append(at, l.Name+" "+job.Fixed(l.Metres/job.Foot, 2))
		}
	}
	if len(at) > 0 {
		heights += fmt.Sprintf(" At %s, %s: %s.", station, job.AwayText(away), strings.Join(at, ", "))
	}
	made := []string{heights}
	accuracy := "of no stated accuracy"
	if off := s.Proposal.Accuracy; !math.IsNaN(off) {
		accuracy = "within " + job.FeetText(off)
	}
	return append(made, fmt.Sprintf("Proposal drawn on %s, %s.", s.Proposal.Of.CRS().Datum, accuracy))
}

// partNotes say which of its parts states what is told of all of it, if they differ.
func (p *plan) partNotes() []string {
	if len(p.r.p.Variants) == 0 {
		return nil
	}
	return []string{"Its parts state different things; kind, material and heights are those of " + p.r.p.Of.PartTitle() + "."}
}

// unseenNotes say why of what a drawing should show nothing is there: it is not known, or it
// lies far off.
func (p *plan) unseenNotes() []string {
	var made, far []string
	for _, of := range []struct{ measure, name string }{
		{"seagrass_nearest", "seagrass"}, {"wetland_nearest", "wetlands"}, {"channel_nearest", "channels"}, {"riparian_nearest", "riparian lines"},
	} {
		switch v := p.s.Measure(rules.Ref{Measure: of.measure}); {
		case v.Unknown != "":
			made = append(made, "Of "+of.name+" it is not known how near: "+v.Unknown+".")
		case v.Bound == rules.MoreThan:
			far = append(far, of.name+" within "+job.FeetText(v.Number))
		}
	}
	if far != nil {
		made = append(made, "As mapped there are no "+strings.Join(far, ", no ")+".")
	}
	return made
}

// lineNotes say of which date, source and accuracy the tidal lines are.
func (p *plan) lineNotes() []string {
	var made []string
	for _, name := range []string{"high_water", "low_water"} {
		l := p.s.Layers.Layer(name)
		if l == nil {
			made = append(made, "No "+strings.TrimPrefix(layers.KindOfLayer(name).Title, "the ")+" was given.")
			continue
		}
		near := p.s.Near(l.Geo)
		switch { // that which was measured to
		case name == "high_water" && p.s.Bank != nil:
			near = p.s.Bank.Lines
		case name == "low_water" && p.s.Low != nil:
			near = p.s.Low.Lines
		}
		if near.Empty() {
			made = append(made, "No "+strings.TrimPrefix(l.Title, "the ")+" is mapped within "+job.FeetText(p.s.Radius)+".")
			continue
		}
		item := l.Items[near.Item(p.s.Footprint.Nearest(near).Foot)]
		text := strings.TrimSuffix(strings.TrimPrefix(l.Title, "the "), " line")
		text = strings.ToUpper(text[:1]) + text[1:] + " (" + item.Label + "): "
		if item.Date != "" {
			text += "of " + item.Date
		} else {
			text += "not dated"
		}
		if off := item.Accuracy; !math.IsNaN(off) {
			text += ", within " + job.FeetText(off)
		} else {
			text += ", of no stated accuracy"
		}
		if l.Source.Epoch != "" {
			text += ", epoch " + l.Source.Epoch
		}
		if !math.IsNaN(item.Elevation) {
			text += ", " + job.FeetText(item.Elevation) + " " + l.Source.Datum
		}
		made = append(made, text+".")
	}
	return made
}

// signNotes say what the signs of the drawing are.
func (p *plan) signNotes() string {
	text := "Dots: land. Hatch: proposed. North up is true north."
	if _, why := p.s.Transect(); why == "" {
		text = "T: toe farthest from mean high water. " + text
	}
	return text
}
