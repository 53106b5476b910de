package site

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
	"waterward/screening/job"
)

// acrossWater sets the width of the water body and the share of it taken.
func (s *Site) acrossWater() {
	high := s.Values["mhw_farthest"]
	if s.Bank == nil || high.Unknown != "" {
		s.Values["waterway_width"], s.Values["waterway_share"] = Unknown("%s", high.Unknown), Unknown("%s", high.Unknown)
		return
	}
	if s.Unclear != "" {
		s.Values["waterway_width"] = Unknown("another high water line is near, but %s", s.Unclear)
		s.Values["waterway_share"] = s.Values["waterway_width"]
		return
	}
	across, rock := s.Bank.WidthAcross()
	switch {
	case across.Distance > s.Radius && rock.Distance <= s.Radius:
		s.width(rock, s.Radius, s.RockOrShore(across, rock))
	case across.Distance > s.Radius && s.twoShores:
		s.Values["waterway_width"] = Unknown("another shore is nearer to part of the structure, and none lies square across; look how wide the water is")
		s.Values["waterway_share"] = s.Values["waterway_width"]
	case across.Distance > s.Radius:
		layer, known := s.Layers.Layer("high_water"), s.Radius
		open := rules.Value{Number: known, Bound: rules.MoreThan, Detail: "no other shore is mapped so near", Layer: layer.Name, Date: layer.Source.Date}
		if layer.Surveyed == nil {
			open = Doubting(open, "no surveyed area is stated for the mean high water line, so that no other shore is near is only assumed: state where it was surveyed", 0)
		} else if reach, why := s.surveyed(layer); why != "" || reach < s.Radius {
			open = Doubting(open, "the surveyed area of the mean high water line ends within "+job.FeetText(s.Radius)+" of the site, so another shore may be near: map it further", 0)
		}
		s.Values["waterway_width"] = open
		share := open
		share.Number, share.Bound, share.Whole = math.Max(0, high.Number)/known, rules.LessThan, known
		s.Values["waterway_share"] = share
	case across.Distance < high.Number:
		s.Values["waterway_width"] = Unknown("the shore found across lies %s off, nearer than the structure reaches; look how wide the water is", job.FeetText(across.Distance))
		s.Values["waterway_share"] = s.Values["waterway_width"]
	default:
		s.width(across, rock.Distance, s.RockOrShore(across, rock))
	}
}

// RockOrShore says that the width of the water can be taken to a rock or to a shore.
func (s *Site) RockOrShore(shore, rock geo.Reach) string {
	if shore.Distance > s.Radius {
		return fmt.Sprintf("it is %s to a rock, and no other shore is mapped within %s: say whether the rock counts as the shore across", job.FeetText(rock.Distance), job.FeetText(s.Radius))
	}
	return fmt.Sprintf("it is %s to the shore across and %s to a rock: say whether the rock counts as the shore across", job.FeetText(shore.Distance), job.FeetText(rock.Distance))
}

// width sets the width of the water and the share of it taken, and that the width can be
// taken in another way.
func (s *Site) width(across geo.Reach, other float64, says string) {
	layer, high := s.Layers.Layer("high_water"), s.Values["mhw_farthest"]
	item := layer.Items[s.Bank.Lines.Item(across.Foot)]
	width := rules.Value{Number: across.Distance, Accuracy: []rules.Accuracy{s.accuracy(layer, item)}, Layer: layer.Name, Feature: item.Label, Date: item.Date}
	s.draw("waterway_width", []orb.Point{across.At, across.Foot.At}, layer.Name, item.Label)
	share := width
	share.Number, share.Whole = math.Max(0, high.Number)/across.Distance, across.Distance
	for _, also := range high.Also {
		share.Also = append(share.Also, rules.Also{Number: math.Max(0, also.Number) / across.Distance, Says: also.Says})
	}
	if math.Abs(other-across.Distance) > rules.Resolution {
		width.Also = []rules.Also{{Number: other, Says: says}}
		share.Also = append(share.Also, rules.Also{Number: math.Max(0, high.Number) / other, Says: says})
	}
	s.Values["waterway_width"], s.Values["waterway_share"] = width, share
}
