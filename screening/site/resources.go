package site

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// distanceValue is a least distance: exact within reach, else known to be more. What the
// layer may lack could be nearer.
func (s *Site) distanceValue(l *layers.Layer, measure string, r geo.Reach, item int, on coverage) rules.Value {
	if r.Distance > on.Reach {
		v := rules.Value{Number: on.Reach, Bound: rules.MoreThan, Accuracy: s.unlabelled(l), Layer: l.Name, Date: l.Source.Date}
		if on.Reach < s.Radius {
			v.Detail = "the survey of " + l.Title + " goes no farther"
		}
		return on.lacking(v, 0)
	}
	s.draw(measure, []orb.Point{r.At, r.Foot.At}, l.Name, l.Items[item].Label)
	return on.lacking(s.restingOn(rules.Value{Number: r.Distance}, l, s.Near(l.Geo), item), 0)
}

// seagrass sets how much of it is covered, and the distance to it.
func (s *Site) seagrass() {
	l := s.Layers.Layer("seagrass")
	if l == nil {
		s.SetAll(Unknown("no seagrass layer was given; add layers.seagrass"), ofLayer["seagrass"]...)
		return
	}
	s.cover(l, "seagrass_overlap", "seagrass_nearest")
}

// channels sets the distance to the nearest channel, and its reach.
func (s *Site) channels() {
	l := s.Layers.Layer("channels")
	if l == nil {
		s.SetAll(Unknown("no channels were given; add layers.channels"), ofLayer["channels"]...)
		return
	}
	s.Values["channel_nearest"], s.Values["channel_reach"] = s.channel(l)
}

// cover sets how much of what grows in a layer the footprint covers, and the
// distance to it.
func (s *Site) cover(l *layers.Layer, overlapName, nearestName string) {
	on := s.covered(l)
	if on.why != "" {
		s.Values[overlapName], s.Values[nearestName] = Unknown("%s", on.why), Unknown("%s", on.why)
		return
	}
	c := s.Footprint.Contact(l.Geo, s.Near(l.Geo))
	nearest := s.distanceValue(l, nearestName, c.Nearest, c.Item, on)
	s.Values[nearestName] = nearest
	shared, err := s.Footprint.SharedArea(l.Geo, c.Touched)
	if err != nil {
		s.Values[overlapName] = Unknown("%v", err)
		return
	}
	overlap := nearest
	overlap.Number, overlap.Bound, overlap.Also = shared, rules.Exact, nil
	overlap.Edge = &nearest.Number
	if len(c.Touched) > 0 {
		overlap.Edge = &c.Depth
	}
	if on.leftAt > 0 { // it is covered by none of that
		on.left = ""
	}
	on.leftAt = 0
	s.Values[overlapName] = on.lacking(overlap, s.Footprint.Area)
}

// channel is the least distance to a channel's edge, and the reach of that
// channel. A centreline stands for its edge at half its width.
func (s *Site) channel(l *layers.Layer) (nearest, name rules.Value) {
	on := s.covered(l)
	if on.why != "" {
		return Unknown("%s", on.why), Unknown("%s", on.why)
	}
	// The edge of a channel whose centreline lies just outside the window can
	// lie within it.
	on.Reach = math.Max(0, math.Min(on.Reach, s.Radius-l.Widest/2))
	near := s.Near(l.Geo)
	best, bestItem, detail := geo.Reach{Distance: math.Inf(1)}, 0, ""
	for _, own := range near.ByItem() {
		item := own.Item
		if l.Geo.Items[item].Area != nil {
			continue
		}
		a := l.Items[item]
		if math.IsNaN(a.Width) {
			why := Unknown("the channel centreline %s has no width_ft, so its edge is not known", a.Label)
			return why, why
		}
		r := toEdge(s.Footprint.Nearest(own.Lines), a.Width/2)
		if r.Distance < best.Distance {
			best, bestItem = r, item
			detail = "from the centreline less half its width of " + job.FeetText(a.Width)
		}
	}
	areas := near.OnlyItems(func(it int) bool { return l.Geo.Items[it].Area != nil })
	if c := s.Footprint.Contact(l.Geo, areas); c.Item >= 0 && c.Nearest.Distance <= best.Distance {
		best, bestItem, detail = c.Nearest, c.Item, ""
	}
	v := s.distanceValue(l, "channel_nearest", best, bestItem, on)
	if v.Bound == rules.Exact && detail != "" {
		v.Detail = detail
		s.Notice("channel_nearest is measured %s", detail)
	}
	return v, s.channelReach(l, near, v, bestItem)
}

// channelReach is what the channels near say of which reach they are. A book asks
// for one distance in each reach, so near two reaches there is no one answer.
func (s *Site) channelReach(l *layers.Layer, near *geo.Lines, nearest rules.Value, item int) rules.Value {
	if nearest.Bound != rules.Exact {
		return Unknown("no channel is mapped within %s", job.FeetText(nearest.Number))
	}
	own := l.Items[item]
	for _, other := range near.ByItem() {
		a := l.Items[other.Item]
		switch {
		case s.Footprint.Nearest(other.Lines).Distance-a.HalfWidth() > s.Layers.Setback+rules.UnstatedReach:
			// No book asks anything of it so far off.
		case a.Reach == "":
			return Unknown("the channel %s does not say of which reach it is; give it the property reach", a.Label)
		case !rules.SameWord(a.Reach, own.Reach):
			return Unknown("channels of two reaches are near, %s (%s) and %s (%s); see to the distance each asks for", own.Reach, own.Label, a.Reach, a.Label)
		}
	}
	return rules.Value{Word: own.Reach, Layer: l.Name, Feature: own.Label, Date: own.Date}
}

// toEdge moves the foot of a reach from a centreline to the edge on this side.
func toEdge(r geo.Reach, half float64) geo.Reach {
	if r.Distance <= half {
		r.Distance, r.Foot.At = 0, r.At // within the channel
		return r
	}
	share := (r.Distance - half) / r.Distance
	for i := range r.At {
		r.Foot.At[i] = r.At[i] + share*(r.Foot.At[i]-r.At[i])
	}
	r.Distance -= half
	return r
}

// namedArea sets whether the footprint touches a named area, and which.
func (s *Site) namedArea(l *layers.Layer) {
	measure := "in_area:" + l.Name[len("areas."):]
	on := s.covered(l)
	if on.why != "" {
		s.Values[measure] = Unknown("%s", on.why)
		return
	}
	near := s.Near(l.Geo)
	c := s.Footprint.Contact(l.Geo, near)
	v := rules.Value{Layer: l.Name, Date: l.Source.Date, Accuracy: s.unlabelled(l)}
	edge := math.Min(c.Nearest.Distance, on.Reach)
	if len(c.Touched) > 0 {
		edge = c.Depth
	}
	v.Edge = &edge
	if c.Item >= 0 {
		item := l.Items[c.Item]
		v.Feature, v.Date, v.Accuracy = item.Label, item.Date, []rules.Accuracy{s.accuracy(l, item)}
	}
	if len(c.Touched) == 0 {
		if c.Item >= 0 { // any that is near may reach it
			on := s.restingOn(rules.Value{Number: c.Nearest.Distance}, l, near, c.Item)
			v.Date, v.Accuracy = on.Date, on.Accuracy
		}
		v = on.Doubted(v)
	}
	for _, item := range c.Touched {
		v.Names = append(v.Names, l.Items[item].Label)
	}
	s.Values[measure] = v
}
