package screening

import (
	"math"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/rules"
)

// restingOn completes a distance from some lines of a layer with what it rests on: the
// feature that decides, and of every one that could have decided the accuracy and the
// date. Such is one no farther from the footprint than the value, or so little farther
// that its accuracy leaves open which of them counts.
func (s *site) restingOn(v rules.Value, l *layer, lines *geo.Lines, item int) rules.Value {
	own := l.items[item]
	v.Layer, v.Feature, v.Date = l.name, own.label, own.date
	v.Accuracy = []rules.Accuracy{s.accuracy(l, own)}
	if !l.mixed {
		return v
	}
	for _, other := range lines.ByItem() {
		if other.Item == item {
			continue
		}
		it := l.items[other.Item]
		a := s.accuracy(l, it)
		distance := s.fp.Nearest(other.Lines).Distance
		if l.geo.Items[other.Item].Area == nil {
			distance = math.Max(0, distance-it.halfWidth())
		}
		a.Farther = math.Max(0, distance-math.Abs(v.Number))                        // landward of a line it is as far from it
		if l.geo.Items[other.Item].Area != nil && a.Farther < rules.UnstatedReach { // what grows may have come nearer since
			v.Date = older(v.Date, it.date)
		}
		guard, unstated := a.Guard()
		if a.Farther > 0 && guard == 0 && (len(unstated) == 0 || a.Farther >= rules.UnstatedReach) {
			continue
		}
		v.Accuracy = append(v.Accuracy, a)
		v.Date = older(v.Date, it.date)
	}
	return v
}

// older is the earlier of two dates, and none if either is not stated: what is not dated
// may be of any age.
func older(a, b string) string {
	if a == "" || b == "" {
		return ""
	}
	first, known := parseDate(a)
	second, also := parseDate(b)
	switch {
	case !known:
		return a
	case !also || second.Before(first):
		return b
	}
	return a
}

func (s *site) accuracy(l *layer, item attributes) rules.Accuracy {
	return rules.Accuracy{
		Of: l.title + " (" + item.label + ")", Line: item.accuracy, Footprint: s.p.accuracy,
		Bias: item.shift + s.datumShift(item.datum) + coarseness(s.p.feature),
	}
}

// datumShift is how far positions on a datum may lie from those of the proposal, metres.
// What the tool has drawn itself lies where it was drawn.
func (s *site) datumShift(of crs.Datum) float64 {
	own := s.p.feature.CRS().Datum
	if s.p.drawnHere && own == of {
		return 0
	}
	return crs.DatumShift(of, own)
}

// unlabelled is the accuracy of a layer none of whose features is near.
func (s *site) unlabelled(l *layer) []rules.Accuracy {
	shift := 0.0
	for _, file := range l.files {
		shift = math.Max(shift, s.datumShift(file.crs.Datum))
	}
	return []rules.Accuracy{{
		Of: l.title, Line: l.source.Accuracy.OrNaN(), Footprint: s.p.accuracy,
		Bias: l.source.DatumShift.Metres + l.grain + shift + coarseness(s.p.feature),
	}}
}
