package screening

import (
	"math"

	"waterward/geo"
	"waterward/rules"
)

// distanceValue is a least distance: exact within reach, else known to be more. What the
// layer may lack could be nearer.
func (s *site) distanceValue(l *layer, measure string, r geo.Reach, item int, on coverage) rules.Value {
	if r.Distance > on.reach {
		v := rules.Value{Number: on.reach, Bound: rules.MoreThan, Accuracy: s.unlabelled(l), Layer: l.name, Date: l.source.Date}
		if on.reach < s.radius {
			v.Detail = "the survey of " + l.title + " goes no farther"
		}
		return on.lacking(v, 0)
	}
	s.draw(measure, r.At, r.Foot.At, l.name, l.items[item].label)
	return on.lacking(s.restingOn(rules.Value{Number: r.Distance}, l, s.near(l.geo), item), 0)
}

// seagrass sets how much of it is covered, and the distance to it.
func (s *site) seagrass() {
	l := s.layers.layer("seagrass")
	if l == nil {
		s.setAll(unknown("no seagrass layer was given; add layers.seagrass"), "seagrass_overlap", "seagrass_nearest")
		return
	}
	s.cover(l, "seagrass_overlap", "seagrass_nearest")
}

// channels sets the distance to the nearest channel, and its reach.
func (s *site) channels() {
	l := s.layers.layer("channels")
	if l == nil {
		s.setAll(unknown("no channels were given; add layers.channels"), "channel_nearest", "channel_reach")
		return
	}
	s.values["channel_nearest"], s.values["channel_reach"] = s.channel(l)
}

// cover sets how much of what grows in a layer the footprint covers, and the
// distance to it.
func (s *site) cover(l *layer, overlapName, nearestName string) {
	on := s.covered(l)
	if on.why != "" {
		s.values[overlapName], s.values[nearestName] = unknown("%s", on.why), unknown("%s", on.why)
		return
	}
	c := s.fp.Contact(l.geo, s.near(l.geo))
	nearest := s.distanceValue(l, nearestName, c.Nearest, c.Item, on)
	s.values[nearestName] = nearest
	shared, err := s.fp.SharedArea(l.geo, c.Touched)
	if err != nil {
		s.values[overlapName] = unknown("%v", err)
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
	s.values[overlapName] = on.lacking(overlap, s.fp.Area)
}

// channel is the least distance to a channel's edge, and the reach of that
// channel. A centreline stands for its edge at half its width.
func (s *site) channel(l *layer) (nearest, name rules.Value) {
	on := s.covered(l)
	if on.why != "" {
		return unknown("%s", on.why), unknown("%s", on.why)
	}
	// The edge of a channel whose centreline lies just outside the window can
	// lie within it.
	on.reach = math.Max(0, math.Min(on.reach, s.radius-l.widest/2))
	near := s.near(l.geo)
	best, bestItem, detail := geo.Reach{Distance: math.Inf(1)}, 0, ""
	for _, own := range near.ByItem() {
		item := own.Item
		if l.geo.Items[item].Area != nil {
			continue
		}
		a := l.items[item]
		if math.IsNaN(a.width) {
			why := unknown("the channel centreline %s has no width_ft, so its edge is not known", a.label)
			return why, why
		}
		r := toEdge(s.fp.Nearest(own.Lines), a.width/2)
		if r.Distance < best.Distance {
			best, bestItem = r, item
			detail = "from the centreline less half its width of " + feetText(a.width)
		}
	}
	areas := near.OnlyItems(func(it int) bool { return l.geo.Items[it].Area != nil })
	if c := s.fp.Contact(l.geo, areas); c.Item >= 0 && c.Nearest.Distance <= best.Distance {
		best, bestItem, detail = c.Nearest, c.Item, ""
	}
	v := s.distanceValue(l, "channel_nearest", best, bestItem, on)
	if v.Bound == rules.Exact && detail != "" {
		v.Detail = detail
		s.notice("channel_nearest is measured %s", detail)
	}
	return v, s.channelReach(l, near, v, bestItem)
}

// channelReach is what the channels near say of which reach they are. A book asks
// for one distance in each reach, so near two reaches there is no one answer.
func (s *site) channelReach(l *layer, near *geo.Lines, nearest rules.Value, item int) rules.Value {
	if nearest.Bound != rules.Exact {
		return unknown("no channel is mapped within %s", feetText(nearest.Number))
	}
	own := l.items[item]
	for _, other := range near.ByItem() {
		a := l.items[other.Item]
		switch {
		case s.fp.Nearest(other.Lines).Distance-a.halfWidth() > s.layers.setback+rules.UnstatedReach:
			// No book asks anything of it so far off.
		case a.reach == "":
			return unknown("the channel %s does not say of which reach it is; give it the property reach", a.label)
		case !rules.SameWord(a.reach, own.reach):
			return unknown("channels of two reaches are near, %s (%s) and %s (%s); see to the distance each asks for", own.reach, own.label, a.reach, a.label)
		}
	}
	return rules.Value{Word: own.reach, Layer: l.name, Feature: own.label, Date: own.date}
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
func (s *site) namedArea(l *layer) {
	measure := "in_area:" + l.name[len("areas."):]
	on := s.covered(l)
	if on.why != "" {
		s.values[measure] = unknown("%s", on.why)
		return
	}
	near := s.near(l.geo)
	c := s.fp.Contact(l.geo, near)
	v := rules.Value{Layer: l.name, Date: l.source.Date, Accuracy: s.unlabelled(l)}
	edge := math.Min(c.Nearest.Distance, on.reach)
	if len(c.Touched) > 0 {
		edge = c.Depth
	}
	v.Edge = &edge
	if c.Item >= 0 {
		item := l.items[c.Item]
		v.Feature, v.Date, v.Accuracy = item.label, item.date, []rules.Accuracy{s.accuracy(l, item)}
	}
	if len(c.Touched) == 0 {
		if c.Item >= 0 { // any that is near may reach it
			on := s.restingOn(rules.Value{Number: c.Nearest.Distance}, l, near, c.Item)
			v.Date, v.Accuracy = on.Date, on.Accuracy
		}
		v = on.doubted(v)
	}
	for _, item := range c.Touched {
		v.Names = append(v.Names, l.items[item].label)
	}
	s.values[measure] = v
}
