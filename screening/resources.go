package screening

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
)

// reached says how far round the footprint a layer answers for: the search
// radius, or less where its surveyed area ends sooner; or why it does not
// answer here at all.
func (s *site) reached(l *layer) (float64, string) {
	if v, bad := s.incomplete(); bad {
		return 0, v.Unknown
	}
	if why := s.defect(l); why != "" {
		return 0, why
	}
	if l.surveyed != nil {
		depth, inside := s.fp.DepthInside(l.surveyed, s.near(l.surveyed))
		if !inside {
			return 0, "the site is not inside the surveyed area of " + l.title + "; have it surveyed"
		}
		return math.Min(s.radius, depth), ""
	}
	if b, ok := l.geo.Bound(); !ok || !b.Intersects(s.window) {
		return 0, "the layer of " + l.title + " does not reach this site"
	}
	s.notice("no surveyed area is stated for %s; the layer is taken as complete here", l.title)
	return s.radius, ""
}

// distanceValue is a least distance: exact within reach, else known to be more.
func (s *site) distanceValue(l *layer, measure string, r geo.Reach, item int, reach float64) rules.Value {
	if r.Distance > reach {
		return rules.Value{Number: reach, Bound: rules.MoreThan, Accuracy: s.unlabelled(l), Layer: l.name, Date: l.source.Date}
	}
	it := l.items[item]
	s.draw(measure, r.At, r.Foot.At, l.name, it.label)
	return rules.Value{Number: r.Distance, Accuracy: s.accuracy(it), Layer: l.name, Feature: it.label, Date: l.source.Date}
}

// unlabelled is the accuracy of a layer none of whose features is near.
func (s *site) unlabelled(l *layer) *rules.Accuracy {
	return &rules.Accuracy{Line: l.source.Accuracy.OrNaN(), Footprint: s.p.accuracy, Bias: l.source.DatumShift.Metres}
}

// resources sets the measures of seagrass and channels.
func (s *site) resources() {
	if l := s.layers.layer("seagrass"); l == nil {
		why := "no seagrass layer was given; add layers.seagrass"
		s.values["seagrass_overlap"], s.values["seagrass_nearest"] = unknown("%s", why), unknown("%s", why)
	} else {
		s.cover(l, "seagrass_overlap", "seagrass_nearest")
	}
	if l := s.layers.layer("channels"); l == nil {
		why := "no channels were given; add layers.channels"
		s.values["channel_nearest"], s.values["channel_reach"] = unknown("%s", why), unknown("%s", why)
	} else {
		s.values["channel_nearest"], s.values["channel_reach"] = s.channel(l)
	}
}

// cover sets how much of what grows in a layer the footprint covers, and the
// distance to it.
func (s *site) cover(l *layer, overlapName, nearestName string) {
	reach, why := s.reached(l)
	if why != "" {
		s.values[overlapName], s.values[nearestName] = unknown("%s", why), unknown("%s", why)
		return
	}
	c := s.fp.Contact(l.geo, s.near(l.geo))
	nearest := s.distanceValue(l, nearestName, c.Nearest, c.Item, reach)
	s.values[nearestName] = nearest
	shared, err := s.fp.SharedArea(l.geo, c.Touched)
	if err != nil {
		s.values[overlapName] = unknown("%v", err)
		return
	}
	overlap := nearest
	overlap.Number, overlap.Bound = shared, rules.Exact
	overlap.Edge = &nearest.Number
	if len(c.Touched) > 0 {
		overlap.Edge = &c.Depth
	}
	s.values[overlapName] = overlap
}

// channel is the least distance to a channel's edge, and the reach of that
// channel. A centreline stands for its edge at half its width.
func (s *site) channel(l *layer) (nearest, name rules.Value) {
	reach, why := s.reached(l)
	if why != "" {
		return unknown("%s", why), unknown("%s", why)
	}
	// The edge of a channel whose centreline lies just outside the window can
	// lie within it.
	reach = math.Max(0, math.Min(reach, s.radius-l.widest/2))
	near := s.near(l.geo)
	best, bestItem, detail := geo.Reach{Distance: math.Inf(1)}, 0, ""
	for _, item := range near.Items() {
		if l.geo.Items[item].Area != nil {
			continue
		}
		a := l.items[item]
		if math.IsNaN(a.width) {
			why := unknown("the channel centreline %s has no width_ft, so its edge is not known", a.label)
			return why, why
		}
		r := toEdge(s.fp.Nearest(near.OnlyItems(func(it int) bool { return it == item })), a.width/2)
		if r.Distance < best.Distance {
			best, bestItem = r, item
			detail = "from the centreline less half its width of " + feetText(a.width)
		}
	}
	areas := near.OnlyItems(func(it int) bool { return l.geo.Items[it].Area != nil })
	if c := s.fp.Contact(l.geo, areas); c.Item >= 0 && c.Nearest.Distance <= best.Distance {
		best, bestItem, detail = c.Nearest, c.Item, ""
	}
	v := s.distanceValue(l, "channel_nearest", best, bestItem, reach)
	if v.Bound == rules.Exact && detail != "" {
		v.Detail = detail
		s.notice("channel_nearest is measured %s", detail)
	}
	return v, s.channelReach(l, v, bestItem)
}

// channelReach is what the nearest channel says of which reach it is.
func (s *site) channelReach(l *layer, nearest rules.Value, item int) rules.Value {
	switch {
	case nearest.Bound != rules.Exact:
		return unknown("no channel is mapped within %s", feetText(nearest.Number))
	case l.items[item].reach == "":
		return unknown("the channel %s does not say of which reach it is; give it the property reach", l.items[item].label)
	}
	return rules.Value{Word: l.items[item].reach, Layer: l.name, Feature: l.items[item].label, Date: l.source.Date}
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

// neighbours sets the distance to the riparian lines and finds the parcels on
// the stretch of bank occupied.
func (s *site) neighbours() {
	if l := s.layers.layer("riparian"); l == nil {
		s.values["riparian_nearest"] = unknown("no riparian lines were given; add layers.riparian")
	} else {
		s.values["riparian_nearest"] = s.riparian(l)
	}
	if l := s.layers.layer("parcels"); l != nil {
		s.parcels = s.parcelsOn(l)
	}
}

func (s *site) riparian(l *layer) rules.Value {
	reach, why := s.reached(l)
	if why != "" {
		return unknown("%s", why)
	}
	near := s.near(l.geo)
	if near.Empty() {
		return s.distanceValue(l, "riparian_nearest", geo.Reach{Distance: math.Inf(1)}, 0, reach)
	}
	r := s.fp.Nearest(near)
	if r.Distance > 0 {
		v := s.distanceValue(l, "riparian_nearest", r, near.Item(r.Foot), reach)
		v.Room = s.otherSide(near, r)
		return v
	}
	deepest, at := 0.0, near.Item(r.Foot)
	for _, item := range near.Items() {
		own := near.OnlyItems(func(it int) bool { return it == item })
		if s.fp.Nearest(own).Distance > 0 {
			continue
		}
		if beyond := s.fp.Beyond(own); beyond.Distance > deepest {
			deepest, at, r = beyond.Distance, item, beyond
		}
	}
	r.Distance = -deepest
	v := s.distanceValue(l, "riparian_nearest", r, at, reach)
	v.Room = math.NaN()
	return v
}

// otherSide is the distance to the nearest riparian line on the other side of the
// structure, NaN if there is none.
func (s *site) otherSide(near *geo.Lines, r geo.Reach) float64 {
	least := math.NaN()
	for _, item := range near.Items() {
		o := s.fp.Nearest(near.OnlyItems(func(it int) bool { return it == item }))
		facing := (o.Foot.At[0]-o.At[0])*(r.Foot.At[0]-r.At[0]) + (o.Foot.At[1]-o.At[1])*(r.Foot.At[1]-r.At[1])
		if facing < 0 && !(o.Distance >= least) {
			least = o.Distance
		}
	}
	return least
}

// namedArea sets whether the footprint touches a named area, and which.
func (s *site) namedArea(l *layer) {
	measure := "in_area:" + l.name[len("areas."):]
	reach, why := s.reached(l)
	if why != "" {
		s.values[measure] = unknown("%s", why)
		return
	}
	c := s.fp.Contact(l.geo, s.near(l.geo))
	v := rules.Value{Layer: l.name, Date: l.source.Date, Accuracy: s.unlabelled(l)}
	edge := math.Min(c.Nearest.Distance, reach)
	if len(c.Touched) > 0 {
		edge = c.Depth
	}
	v.Edge = &edge
	if c.Item >= 0 {
		v.Feature, v.Accuracy = l.items[c.Item].label, s.accuracy(l.items[c.Item])
	}
	for _, item := range c.Touched {
		v.Names = append(v.Names, l.items[item].label)
	}
	s.values[measure] = v
}

const (
	// parcelTolerance is how far, in metres (30 ft), a parcel may end from the
	// high water line and still front on it: parcel and shore surveys seldom
	// meet exactly.
	parcelTolerance = 30 * foot
	// parcelStep is how often, in metres (10 ft), the occupied bank is asked
	// whose it is: less than the frontage of any lot.
	parcelStep = 10 * foot
)

// parcelsOn returns the parcels that front on the occupied stretch of bank.
func (s *site) parcelsOn(l *layer) []string {
	near := s.near(l.geo)
	var out []string
	seen := map[string]bool{}
	for _, st := range s.occupied {
		base := geo.NewBaseline(st.Points)
		steps := math.Ceil(st.Length / parcelStep)
		for i := 0.0; i < steps; i++ {
			at := base.At((i + 0.5) / steps * st.Length)
			for _, item := range s.parcelsAt(l, near, at) {
				if label := l.items[item].label; !seen[label] {
					seen[label] = true
					out = append(out, label)
				}
			}
		}
	}
	return out
}

func (s *site) parcelsAt(l *layer, near *geo.Lines, at orb.Point) []int {
	if holding := l.geo.AreasAt(s.fp.Plane.Inverse(at)); len(holding) > 0 {
		return holding
	}
	if near.Empty() {
		return nil
	}
	if f := near.Nearest(at); f.Distance <= parcelTolerance {
		return []int{near.Item(f)}
	}
	return nil
}
