package screening

import (
	"fmt"
	"math"

	"waterward/geo"
	"waterward/rules"
)

// acrossWater sets the width of the water body and the share of it taken.
func (s *site) acrossWater() {
	high := s.values["mhw_farthest"]
	if s.bank == nil || high.Unknown != "" {
		s.values["waterway_width"], s.values["waterway_share"] = unknown("%s", high.Unknown), unknown("%s", high.Unknown)
		return
	}
	if s.unclear != "" {
		s.values["waterway_width"] = unknown("another high water line is near, but %s", s.unclear)
		s.values["waterway_share"] = s.values["waterway_width"]
		return
	}
	across, rock := s.bank.WidthAcross()
	switch {
	case across.Distance > s.radius && rock.Distance <= s.radius:
		s.width(rock, s.radius, fmt.Sprintf("%s to a rock, which is no shore; no other shore is mapped within %s", feetText(rock.Distance), feetText(s.radius)))
	case across.Distance > s.radius && s.twoShores:
		s.values["waterway_width"] = unknown("another shore is nearer to part of the structure, and none lies square across; look how wide the water is")
		s.values["waterway_share"] = s.values["waterway_width"]
	case across.Distance > s.radius:
		layer, known := s.layers.layer("high_water"), s.radius
		open := rules.Value{Number: known, Bound: rules.MoreThan, Detail: "no other shore is mapped so near", Layer: layer.name, Date: layer.source.Date}
		if layer.surveyed == nil {
			open = doubting(open, "no surveyed area is stated for the mean high water line, so that no other shore is near is only assumed: state where it was surveyed", 0)
		} else if reach, why := s.surveyed(layer); why != "" || reach < s.radius {
			open = doubting(open, "the surveyed area of the mean high water line ends within "+feetText(s.radius)+" of the site, so another shore may be near: map it further", 0)
		}
		s.values["waterway_width"] = open
		share := open
		share.Number, share.Bound, share.Whole = math.Max(0, high.Number)/known, rules.LessThan, known
		s.values["waterway_share"] = share
	case across.Distance < high.Number:
		s.values["waterway_width"] = unknown("the shore found across lies %s off, nearer than the structure reaches; look how wide the water is", feetText(across.Distance))
		s.values["waterway_share"] = s.values["waterway_width"]
	default:
		s.width(across, rock.Distance, fmt.Sprintf("%s to the shore across, %s to a rock, which is no shore", feetText(across.Distance), feetText(rock.Distance)))
	}
}

// width sets the width of the water and the share of it taken, and that the width can be
// taken in another way.
func (s *site) width(across geo.Reach, other float64, says string) {
	layer, high := s.layers.layer("high_water"), s.values["mhw_farthest"]
	item := layer.items[s.bank.Lines.Item(across.Foot)]
	width := rules.Value{Number: across.Distance, Accuracy: []rules.Accuracy{s.accuracy(layer, item)}, Layer: layer.name, Feature: item.label, Date: item.date}
	s.draw("waterway_width", across.At, across.Foot.At, layer.name, item.label)
	share := width
	share.Number, share.Whole = math.Max(0, high.Number)/across.Distance, across.Distance
	for _, also := range high.Also {
		share.Also = append(share.Also, rules.Also{Number: math.Max(0, also.Number) / across.Distance, Says: also.Says})
	}
	if math.Abs(other-across.Distance) > rules.Resolution {
		width.Also = []rules.Also{{Number: other, Says: says}}
		share.Also = append(share.Also, rules.Also{Number: math.Max(0, high.Number) / other, Says: says})
	}
	s.values["waterway_width"], s.values["waterway_share"] = width, share
}
