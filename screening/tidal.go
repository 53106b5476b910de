package screening

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"waterward/geo"
	"waterward/rules"
)

// tidal sets the distances from the lines of mean high and mean low water.
func (s *site) tidal() {
	high, low := s.layers.layer("high_water"), s.layers.layer("low_water")
	noHigh, noLow := s.banks()
	s.fromLine(high, s.bank, noHigh, "mhw")
	if s.bank != nil {
		s.alongBank()
	} else {
		s.values["bank_length"], s.values["longest_overlap"] = unknown("%s", noHigh), unknown("%s", noHigh)
	}
	s.fromLine(low, s.low, noLow, "mlw")
	s.acrossWater()
	s.besideOtherShore()
	if low != nil {
		s.agree()
		s.crossed()
	}
}

// banks finds the home bank and the low water line along it, or says why either is
// not known.
func (s *site) banks() (noHigh, noLow string) {
	high, low := s.layers.layer("high_water"), s.layers.layer("low_water")
	faced, unsettled := s.near(high.geo).FaceWater(s.waterEvidence("high_water"))
	for _, u := range unsettled {
		s.unclear = u.Why
	}
	s.faced = faced
	s.bank, noHigh = s.homeBank(high, faced, unsettled)
	if low == nil {
		return noHigh, "no mean low water line was given; add layers.low_water"
	}
	lowFaced, unsettled := s.near(low.geo).FaceWater(s.waterEvidence("low_water"))
	if s.bank == nil {
		s.low, noLow = s.homeBank(low, lowFaced, unsettled)
		return noHigh, noLow
	}
	if noLow = s.defect(low); noLow != "" {
		return noHigh, noLow
	}
	if s.low = s.bank.Along(lowFaced); s.low == nil {
		noLow = "no mean low water line is mapped along the whole of this bank within " + feetText(s.radius)
		for _, u := range unsettled {
			noLow = "the mean low water line is near, but " + u.Why
		}
		return noHigh, noLow
	}
	if noLow = cmp.Or(undecided(s.low), s.unsettledNear(low, s.low, unsettled)); noLow != "" {
		s.low = nil
	}
	return noHigh, noLow
}

// waterEvidence is what may tell on which side of a tidal line the water lies.
func (s *site) waterEvidence(name string) geo.Evidence {
	e := geo.Evidence{Stated: s.layers.layer(name).side, Land: s.land(), Plane: s.fp.Plane}
	if name == "high_water" {
		e.OtherWaterward, e.RingIsIsland = true, true
		if low := s.layers.layer("low_water"); low != nil {
			e.Other = s.near(low.geo)
		}
		return e
	}
	e.Other = s.near(s.layers.layer("high_water").geo)
	return e
}

// defect says whether a feature that could not be used may bear on this site.
func (s *site) defect(l *layer) string {
	if why := l.useless(); why != "" {
		return why
	}
	if d := l.geo.DefectNear(s.window); d != nil {
		return "a feature of the layer near here cannot be used: " + d.Err.Error()
	}
	return ""
}

func (s *site) homeBank(l *layer, faced *geo.Lines, unsettled []geo.Facing) (*geo.Bank, string) {
	if why := s.defect(l); why != "" {
		return nil, why
	}
	bank := geo.HomeBank(s.fp, faced)
	nearest := math.Inf(1)
	if bank != nil {
		if bank.Unmapped() {
			return nil, l.title + " is not mapped along the whole of this site; map it further"
		}
		if why := undecided(bank); why != "" {
			return nil, why
		}
		nearest = s.nearestOn(bank.Lines).Distance
	}
	if why := s.unsettledNear(l, bank, unsettled); why != "" {
		return nil, why
	}
	if bank == nil || nearest > s.radius {
		return nil, "none of " + l.title + " is mapped within " + feetText(s.radius)
	}
	return bank, ""
}

// unsettledNear says why a feature of a tidal line of which nobody knows on which side the
// water lies leaves open how far the structure is from that line: it lies nearer than the
// bank does to some part of it.
func (s *site) unsettledNear(l *layer, bank *geo.Bank, unsettled []geo.Facing) string {
	if len(unsettled) == 0 {
		return ""
	}
	most := math.Inf(1)
	if bank != nil {
		most = s.fp.FarthestUnsigned(bank.Lines).Distance
	}
	for _, u := range unsettled {
		if s.fp.Nearest(u.Lines).Distance <= most {
			return l.title + " is near, but " + u.Why
		}
	}
	return ""
}

// undecided says why it is not known to which of two shores a structure belongs.
func undecided(bank *geo.Bank) string {
	switch {
	case bank.Apart:
		return "its pieces stand on both sides of the line midway between two shores and none crosses it: see whether they are one structure, and of which shore"
	case bank.Even:
		return "the line midway between two shores cuts it into equal halves: see to which shore it belongs"
	}
	return ""
}

// fromLine sets the farthest and nearest distance from one tidal line, and that
// of the landward edge.
func (s *site) fromLine(l *layer, bank *geo.Bank, why, prefix string) {
	if v, bad := s.incomplete(); bad && bank != nil {
		// The drawn line may be either edge of the structure, or its middle.
		why = v.Unknown
	}
	s.offLine(asked{prefix + "_farthest", prefix + "_nearest", prefix + "_landward_edge"}, l, bank, why, prefix)
	// A structure can move landward no farther than its landward edge allows;
	// mean high water is measured first.
	if edge := s.values["mhw_nearest"]; why == "" && edge.Unknown == "" {
		far := s.values[prefix+"_farthest"]
		far.Room = edge.Number
		s.values[prefix+"_farthest"] = far
	}
}

// offLine sets the distances from a tidal line that are asked for.
func (s *site) offLine(of asked, l *layer, bank *geo.Bank, why, prefix string) {
	for _, m := range []struct {
		name string
		take func(*geo.Footprint) geo.Readings
	}{
		{prefix + "_farthest", bank.Farthest},
		{prefix + "_nearest", bank.Nearest},
		{prefix + "_landward_edge", bank.LandwardEdge},
	} {
		switch {
		case why != "":
			s.values[m.name] = unknown("%s", why)
		case of.asks(m.name):
			r := m.take(s.fp)
			if m.name == prefix+"_farthest" && bank.EndsWithin(s.fp, r.High) {
				s.values[m.name] = unknown("%s ends nearer to the structure than that reaches, so that shore beyond may be nearer; map it further", l.title)
				continue
			}
			v := s.reachValue(m.name, r.High, bank.Lines, l)
			v.Also = readings(r)
			s.values[m.name] = v
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
		{r.Low, "%[2]s from the nearest shore, %[1]s from the home bank"},
		{r.General, "%[1]s from the line as it is mapped, %[2]s from the shore without land narrower than 10 ft"},
		{r.Mainland, "%[1]s from the islet, %[2]s from the mainland"},
		{r.OffRocks, "%[1]s from the rock it stands on, %[2]s from the home bank"},
	} {
		if math.Abs(o.Distance-r.High.Distance) > rules.Resolution { // not where there is none
			out = append(out, rules.Also{Number: o.Distance, Says: fmt.Sprintf(o.says, feetText(r.High.Distance), feetText(o.Distance))})
		}
	}
	return out
}

// reachValue is a distance with what it rests on; it draws its witness line.
func (s *site) reachValue(name string, r geo.Reach, lines *geo.Lines, l *layer) rules.Value {
	item := lines.Item(r.Foot)
	s.draw(name, r.At, r.Foot.At, l.name, l.items[item].label)
	return s.restingOn(rules.Value{Number: r.Distance, Room: math.NaN()}, l, lines, item)
}

// alongBank sets what hangs on the home bank, and says when there is another
// shore to mind.
func (s *site) alongBank() {
	s.occupied = s.bank.Occupied()
	length := s.bank.Length()
	high := s.layers.layer("high_water")
	item := s.bank.Lines.Item(s.nearestOn(s.bank.Lines).Foot)
	nearest := high.items[item]
	// What decides a length along the bank lies no farther than the structure reaches.
	onBank := s.restingOn(rules.Value{Number: math.Max(0, s.values["mhw_farthest"].Number)}, high, s.bank.Lines, item)
	onBank.Accuracy = bothEnds(onBank.Accuracy)
	overlap := onBank
	overlap.Number = s.bank.LongestOverlap()
	s.values["longest_overlap"] = overlap
	onBank.Number, onBank.Also = length.Along, lengths(length)
	if s.values["bank_length"] = onBank; length.Along < rules.Resolution {
		s.values["bank_length"] = unknown("all of it is nearest to one point of %s; see how much of the shore it stands before", high.title)
	}
	if s.bank.Island {
		s.notice("the home bank is an island (%s)", nearest.label)
	}
	if other, nearer := s.bank.OtherShoreNearer(); nearer {
		s.twoShores = true
		kind := "another shore"
		if s.bank.Others.OnRing(other.Foot) {
			kind = "an islet"
		}
		label := high.items[s.bank.Others.Item(other.Foot)].label
		s.notice("two shores: %s (%s) is nearer to part of the structure, %s from it; distances are from the home bank", kind, label, feetText(other.Distance))
		v := s.values["mhw_farthest"]
		v.Detail = "two shores; measured from the home bank"
		s.values["mhw_farthest"] = v
	}
	if v := s.values["mhw_nearest"]; v.Unknown == "" && v.Number < 0 && s.values["mhw_farthest"].Number > 0 {
		s.notice("part of it lies landward of mean high water, up to %s", feetText(-v.Number))
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
		number float64
		says   string
	}{
		{l.Across, "%[1]s along the shore, %[2]s straight over where the nearest shore jumps"},
		{l.General, "%[1]s along the line as it is mapped, %[2]s along the shore without land narrower than 10 ft"},
		{l.Low, "%[1]s along the home bank, %[2]s along the nearest shore"},
	} {
		if math.Abs(o.number-l.Along) > rules.Resolution { // not where there is none
			out = append(out, rules.Also{Number: o.number, Says: fmt.Sprintf(o.says, feetText(l.Along), feetText(o.number))})
		}
	}
	return out
}

// agree doubts what hangs on two tidal lines that contradict each other: mean low water
// runs waterward of mean high water, so no place before the structure that is its foot on
// the one lies on land by the other.
func (s *site) agree() {
	if s.bank == nil || s.low == nil || s.fp.Incomplete != "" {
		return
	}
	foot := s.low.Farthest(s.fp).High.Foot.At
	if signed, _ := s.faced.Signed(foot); signed < -rules.Resolution {
		s.doubts = append(s.doubts, fmt.Sprintf("the mean low water line lies %s landward of the mean high water line here: check both layers", feetText(-signed)))
	}
}
