package site

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// Tidal sets the distances from the lines of mean high and mean low water.
func (s *Site) Tidal() {
	noHigh, noLow := s.Banks()
	s.fromLine("high_water", s.Bank, noHigh)
	if s.Bank != nil {
		s.alongBank()
	} else {
		s.Values["bank_length"], s.Values["longest_overlap"] = Unknown("%s", noHigh), Unknown("%s", noHigh)
	}
	s.fromLine("low_water", s.Low, noLow)
	s.acrossWater()
	s.besideOtherShore()
	if s.Layers.Layer("low_water") != nil {
		s.agree()
		s.crossed()
	}
}

// Banks finds the home bank and the low water line along it, or says why either is
// not known.
func (s *Site) Banks() (noHigh, noLow string) {
	high, low := s.Layers.Layer("high_water"), s.Layers.Layer("low_water")
	faced, unsettled := s.Near(high.Geo).FaceWater(s.WaterEvidence("high_water"))
	for _, u := range unsettled {
		s.Unclear = u.Why
	}
	s.Faced = faced
	s.Bank, noHigh = s.homeBank(high, faced, unsettled)
	if low == nil {
		return noHigh, "no mean low water line was given; add layers.low_water"
	}
	lowFaced, unsettled := s.Near(low.Geo).FaceWater(s.WaterEvidence("low_water"))
	if s.Bank == nil {
		s.Low, noLow = s.homeBank(low, lowFaced, unsettled)
		return noHigh, noLow
	}
	if noLow = s.defect(low); noLow != "" {
		return noHigh, noLow
	}
	if s.Low = s.Bank.Along(lowFaced); s.Low == nil {
		noLow = "no mean low water line is mapped along the whole of this bank within " + job.FeetText(s.Radius) + "; map it further"
		for _, u := range unsettled {
			noLow = "the mean low water line is near, but " + u.Why
		}
		return noHigh, noLow
	}
	if noLow = cmp.Or(undecided(s.Low), s.unsettledNear(low, s.Low, unsettled)); noLow != "" {
		s.Low = nil
	}
	return noHigh, noLow
}

// WaterEvidence is what may tell on which side of a tidal line the water lies.
func (s *Site) WaterEvidence(name string) geo.Evidence {
	e := geo.Evidence{Stated: s.Layers.Layer(name).Side, Land: s.land(), Plane: s.Footprint.Plane}
	if name == "high_water" {
		e.OtherWaterward, e.RingIsIsland = true, true
		if low := s.Layers.Layer("low_water"); low != nil {
			e.Other = s.Near(low.Geo)
		}
		return e
	}
	e.Other = s.Near(s.Layers.Layer("high_water").Geo)
	return e
}

// defect says whether a feature that could not be used may bear on this site.
func (s *Site) defect(l *layers.Layer) string {
	if why := l.Useless(); why != "" {
		return why
	}
	if d := l.Geo.DefectNear(s.Window); d != nil {
		return "a feature of the layer near here cannot be used: " + d.Err.Error()
	}
	return ""
}

func (s *Site) homeBank(l *layers.Layer, faced *geo.Lines, unsettled []geo.Facing) (*geo.Bank, string) {
	if why := s.defect(l); why != "" {
		return nil, why
	}
	bank := geo.HomeBank(s.Footprint, faced)
	nearest := math.Inf(1)
	if bank != nil {
		if bank.Unmapped() {
			return nil, l.Title + " is not mapped along the whole of this site; map it further"
		}
		if why := undecided(bank); why != "" {
			return nil, why
		}
		nearest = s.nearestOn(bank.Lines).Distance
	}
	if why := s.unsettledNear(l, bank, unsettled); why != "" {
		return nil, why
	}
	if bank == nil || nearest > s.Radius {
		return nil, "none of " + l.Title + " is mapped within " + job.FeetText(s.Radius)
	}
	return bank, ""
}

// unsettledNear says why a feature of a tidal line of which nobody knows on which side the
// water lies leaves open how far the structure is from that line: it lies nearer than the
// bank does to some part of it.
func (s *Site) unsettledNear(l *layers.Layer, bank *geo.Bank, unsettled []geo.Facing) string {
	if len(unsettled) == 0 {
		return ""
	}
	most := math.Inf(1)
	if bank != nil {
		most = s.Footprint.FarthestUnsigned(bank.Lines).Distance
	}
	for _, u := range unsettled {
		if s.Footprint.Nearest(u.Lines).Distance <= most {
			return l.Title + " is near, but " + u.Why
		}
	}
	return ""
}

// undecided says why it is not known to which of two shores a structure belongs.
func undecided(bank *geo.Bank) string {
	switch {
	case bank.Tangled:
		return "it meets the line midway between two shores in too many places to tell to which of them it belongs: simplify it"
	case bank.Apart:
		return "its pieces stand on both sides of the line midway between two shores and none crosses it: see whether they are one structure, and of which shore"
	case bank.Even:
		return "the line midway between two shores cuts it into equal halves: see to which shore it belongs"
	}
	return ""
}

// fromLine sets the farthest and nearest distance from one tidal line, and that
// of the landward edge.
func (s *Site) fromLine(layer string, bank *geo.Bank, why string) {
	if v, bad := s.incomplete(); bad && bank != nil {
		// The drawn line may be either edge of the structure, or its middle.
		why = v.Unknown
	}
	s.OffLine(Asked(ofLayer[layer]), layer, bank, why)
	// A structure can move landward no farther than its landward edge allows;
	// mean high water is measured first.
	if edge := s.Values["mhw_nearest"]; why == "" && edge.Unknown == "" {
		for _, name := range toesOf[layer] {
			far := s.Values[name]
			far.Room = edge.Number
			s.Values[name] = far
		}
	}
}

// OffLine sets the distances from a tidal line that are asked for.
func (s *Site) OffLine(of Asked, layer string, bank *geo.Bank, why string) {
	l := s.Layers.Layer(layer)
	for _, r := range offLines {
		switch {
		case r.Layer != layer:
		case why != "":
			s.Values[r.Name] = Unknown("%s", why)
		case of.Asks(r.Name):
			reach := r.off(bank, s.Footprint)
			if r.toe && bank.EndsWithin(s.Footprint, reach.High) {
				s.Values[r.Name] = Unknown("%s ends nearer to the structure than that reaches, so that shore beyond may be nearer; map it further", l.Title)
				continue
			}
			v := s.ReachValue(r.Name, reach.High, bank.Lines, l)
			v.Also = readings(reach)
			s.Values[r.Name] = v
		}
	}
}

// readings are the other ways in which a distance from a tidal line can be taken.
func readings(r geo.Readings) []rules.Also {
	var out []rules.Also
	for _, o := range []struct {
		geo.Reach
		says string
	}{
		{r.Low, "it lies %[2]s from the nearest shore and %[1]s from the home bank: say from which of the two it is measured"},
		{r.General, "it lies %[1]s from the line as it is mapped and %[2]s from the shore without land narrower than 10 ft: say from which of the two it is measured"},
		{r.Mainland, "it lies %[1]s from the islet and %[2]s from the mainland: say from which of the two it is measured"},
		{r.OffRocks, "it lies %[1]s from the rock it stands on and %[2]s from the home bank: say from which of the two it is measured"},
	} {
		if math.Abs(o.Distance-r.High.Distance) > rules.Resolution { // not where there is none
			out = append(out, rules.Also{Number: o.Distance, Says: fmt.Sprintf(o.says, job.FeetText(r.High.Distance), job.FeetText(o.Distance))})
		}
	}
	return out
}

// ReachValue is a distance with what it rests on; it draws its witness line.
func (s *Site) ReachValue(name string, r geo.Reach, lines *geo.Lines, l *layers.Layer) rules.Value {
	item := lines.Item(r.Foot)
	s.draw(name, []orb.Point{r.At, r.Foot.At}, l.Name, l.Items[item].Label)
	return s.restingOn(rules.Value{Number: r.Distance, Room: math.NaN()}, l, lines, item)
}

// alongBank sets what hangs on the home bank, and says when there is another
// shore to mind.
func (s *Site) alongBank() {
	s.Occupied = s.Bank.Occupied()
	length := s.Bank.Length()
	high := s.Layers.Layer("high_water")
	item := s.Bank.Lines.Item(s.nearestOn(s.Bank.Lines).Foot)
	nearest := high.Items[item]
	// What decides a length along the bank lies no farther than the structure reaches.
	onBank := s.restingOn(rules.Value{Number: math.Max(0, s.Values["mhw_farthest"].Number)}, high, s.Bank.Lines, item)
	onBank.Accuracy = bothEnds(onBank.Accuracy)
	overlap := onBank
	var before []geo.Stretch
	overlap.Number, before = s.Bank.LongestOverlap()
	s.Values["longest_overlap"] = overlap
	for _, on := range before {
		s.draw(longestOverlap, on.Points, high.Name, nearest.Label)
	}
	onBank.Number, onBank.Also = length.Along, lengths(length)
	if s.Values["bank_length"] = onBank; length.Along < rules.Resolution {
		s.Values["bank_length"] = Unknown("all of it is nearest to one point of %s; see how much of the shore it stands before", high.Title)
	}
	if s.Bank.Island {
		s.Notice("the home bank is an island (%s)", nearest.Label)
	}
	if other, nearer := s.Bank.OtherShoreNearer(); nearer {
		s.twoShores = true
		kind := "two shores: another shore"
		if s.Bank.Others.OnRing(other.Foot) {
			kind = "an islet"
		}
		label := high.Items[s.Bank.Others.Item(other.Foot)].Label
		s.Notice("%s (%s) is nearer to part of the structure, %s from it; distances are from the home bank", kind, label, job.FeetText(other.Distance))
		v := s.Values["mhw_farthest"]
		v.Detail = "two shores; measured from the home bank"
		s.Values["mhw_farthest"] = v
	}
	if v := s.Values["mhw_nearest"]; v.Unknown == "" && v.Number < 0 && s.Values["mhw_farthest"].Number > 0 {
		s.Notice("part of it lies landward of mean high water, up to %s", job.FeetText(-v.Number))
	}
}

// bothEnds are accuracies of a length between two feet, each of which may be so far off.
func bothEnds(feet []rules.Accuracy) []rules.Accuracy {
	out := slices.Clone(feet)
	for i := range out {
		out[i].Line *= math.Sqrt2
		out[i].Footprint *= math.Sqrt2
		out[i].Bias *= 2
	}
	return out
}

// lengths are the other ways in which a length along the bank can be taken.
func lengths(l geo.Lengths) []rules.Also {
	var out []rules.Also
	for _, o := range []struct {
		Count float64
		says  string
	}{
		{l.Across, "%[1]s along the shore, %[2]s straight over where the nearest shore jumps"},
		{l.General, "%[1]s along the line as it is mapped, %[2]s along the shore without land narrower than 10 ft"},
		{l.Low, "%[1]s along the home bank, %[2]s along the nearest shore"},
	} {
		if math.Abs(o.Count-l.Along) > rules.Resolution { // not where there is none
			out = append(out, rules.Also{Number: o.Count, Says: fmt.Sprintf(o.says, job.FeetText(l.Along), job.FeetText(o.Count))})
		}
	}
	return out
}

// agree doubts what hangs on two tidal lines that contradict each other: mean low water
// runs waterward of mean high water, so no place before the structure that is its foot on
// the one lies on land by the other.
func (s *Site) agree() {
	if s.Bank == nil || s.Low == nil || s.Footprint.Incomplete != "" {
		return
	}
	foot := s.Low.Farthest(s.Footprint).High.Foot.At
	if signed, _ := s.Faced.Signed(foot); signed < -rules.Resolution {
		s.Unsettled = append(s.Unsettled, fmt.Sprintf("the mean low water line lies %s landward of the mean high water line here: check both layers", job.FeetText(-signed)))
	}
}
