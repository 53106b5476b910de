package site

import (
	"math"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// restingOn completes a distance from some lines of a layer with what it rests on: the
// feature that decides, and of every one that could have decided the accuracy and the
// date. Such is one no farther from the footprint than the value, or so little farther
// that its accuracy leaves open which of them counts.
func (s *Site) restingOn(v rules.Value, l *layers.Layer, lines *geo.Lines, item int) rules.Value {
	own := l.Items[item]
	v.Layer, v.Feature, v.Date = l.Name, own.Label, own.Date
	v.Accuracy = []rules.Accuracy{s.accuracy(l, own)}
	if !l.Mixed {
		return v
	}
	for _, other := range lines.ByItem() {
		if other.Item == item {
			continue
		}
		it := l.Items[other.Item]
		a := s.accuracy(l, it)
		distance := s.Footprint.Nearest(other.Lines).Distance
		if l.Geo.Items[other.Item].Area == nil {
			distance = math.Max(0, distance-it.HalfWidth())
		}
		a.Farther = math.Max(0, distance-math.Abs(v.Number))                        // landward of a line it is as far from it
		if l.Geo.Items[other.Item].Area != nil && a.Farther < rules.UnstatedReach { // what grows may have come nearer since
			v.Date = older(v.Date, it.Date)
		}
		tolerance, unstated := a.Tolerance()
		if a.Farther > 0 && tolerance == 0 && (len(unstated) == 0 || a.Farther >= rules.UnstatedReach) {
			continue
		}
		v.Accuracy = append(v.Accuracy, a)
		v.Date = older(v.Date, it.Date)
	}
	return v
}

// older is the earlier of two dates, and none if either is not stated: what is not dated
// may be of any age.
func older(a, b string) string {
	if a == "" || b == "" {
		return ""
	}
	first, known := job.ParseDate(a)
	second, also := job.ParseDate(b)
	switch {
	case !known:
		return a
	case !also || second.Before(first):
		return b
	}
	return a
}

func (s *Site) accuracy(l *layers.Layer, item layers.Attributes) rules.Accuracy {
	return rules.Accuracy{
		Of: l.Title + " (" + item.Label + ")", Line: item.Accuracy, Footprint: s.Proposal.Accuracy,
		Bias: item.Shift + s.datumShift(item.Datum) + s.Proposal.Of.Coarseness(),
	}
}

// datumShift is how far positions on a datum may lie from those of the proposal, metres.
// What the tool has drawn itself lies where it was drawn.
func (s *Site) datumShift(of crs.Datum) float64 {
	own := s.Proposal.Of.CRS().Datum
	if s.Proposal.drawnHere && own == of {
		return 0
	}
	return crs.DatumShift(of, own)
}

// unlabelled is the accuracy of a layer none of whose features is near.
func (s *Site) unlabelled(l *layers.Layer) []rules.Accuracy {
	shift := 0.0
	for _, file := range l.Files {
		shift = math.Max(shift, s.datumShift(file.CRS.Datum))
	}
	return []rules.Accuracy{{
		Of: l.Title, Line: l.Source.Accuracy.OrNaN(), Footprint: s.Proposal.Accuracy,
		Bias: l.Source.DatumShift.Metres + l.Grain + shift + s.Proposal.Of.Coarseness(),
	}}
}
