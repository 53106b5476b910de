package geo

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// oracleSite is a site of testdata/oracle, in feet: what is drawn and what shapely measured.
type oracleSite struct {
	Kind  string
	Shore []struct{ Line []float64 }
	Low   [][]float64
	// Narrow says that land so narrow is near as asks for no width of the water.
	Narrow bool

	Structure struct {
		Polygons, Lines [][]float64
		Points          []float64
		Width, Diameter float64
	}
	Want map[string]*float64
}

// roundness is by how much of itself an area may be off: round bends are drawn as polygons.
const roundness = 1e-4

// footprint is the structure, drawn at a site on the earth.
func (s *oracleSite) footprint(t *testing.T) *Footprint {
	var g orb.Geometry
	switch d := s.Structure; {
	case d.Polygons != nil:
		var area orb.MultiPolygon
		for _, xy := range d.Polygons {
			area = append(area, siteArea(orb.Polygon{shoreLine(xy...)})...)
		}
		g = area
	case d.Lines != nil:
		var lines orb.MultiLineString
		for _, xy := range d.Lines {
			lines = append(lines, onSite(shoreLine(xy...)))
		}
		g = lines
	default:
		g = orb.MultiPoint(onSite(shoreLine(d.Points...)))
	}
	fp, err := NewFootprint(g, s.Structure.Width*ft, s.Structure.Diameter*ft)
	require.NoError(t, err)
	return fp
}

// inPlane carries the vertices of lines drawn in feet into the plane of a footprint, in feet
// of that, where the edges between them are straight as the oracle has them.
func inPlane(fp *Footprint, lines ...[]float64) [][]orb.Point {
	var out [][]orb.Point
	for _, xy := range lines {
		line := onSite(shoreLine(xy...))
		for i, degrees := range line {
			p := fp.Plane.Forward(degrees)
			line[i] = orb.Point{p[0] / ft, p[1] / ft}
		}
		out = append(out, line)
	}
	return out
}

// TestSitesOfTheOracle: measured by dense sampling with shapely, see testdata/oracle/README.md.
func TestSitesOfTheOracle(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "testdata", "oracle", "sites.json"))
	require.NoError(t, err)
	var sites []oracleSite
	require.NoError(t, json.Unmarshal(text, &sites))
	require.GreaterOrEqual(t, len(sites), 50)
	for i, s := range sites {
		fp := s.footprint(t)
		var shore [][]float64
		for _, l := range s.Shore {
			shore = append(shore, l.Line)
		}
		low := drawnWays(inPlane(fp, s.Low...))
		for way, lines := range drawnWays(inPlane(fp, shore...)) {
			t.Run(fmt.Sprintf("%d %s %s", i+1, s.Kind, way), func(t *testing.T) {
				got := s.measured(fp, lines, low[way])
				for name, want := range s.Want {
					feet, known := got[name]
					require.Equal(t, want != nil, known, name)
					if known {
						require.InDelta(t, *want, feet, 0.01+roundness*feet, name)
					}
				}
			})
		}
	}
}

// measured are the measures in feet by name, without those that there are none of; a low one
// is from the nearest of any shore.
func (s *oracleSite) measured(fp *Footprint, lines, low *Lines) map[string]float64 {
	bank := HomeBank(fp, lines)
	far, near := bank.Farthest(fp), bank.Nearest(fp)
	out := map[string]float64{
		"mhw_farthest": far.High.Distance, "mhw_farthest_low": far.High.Distance,
		"mhw_nearest": near.High.Distance, "mhw_nearest_low": near.High.Distance,
		"bank_length": bank.Length().Along, "footprint_area": fp.Area / ft,
		"element_length": fp.Length(), "overall_length": fp.OverallLength(), "longest_run": fp.LongestRun(5 * ft),
		"openings": 0,
	}
	if !bank.plain() {
		out["mhw_farthest_low"], out["mhw_nearest_low"] = far.Low.Distance, near.Low.Distance
	}
	if along := bank.Along(low); along != nil {
		out["mlw_farthest"], out["mlw_nearest"] = along.Farthest(fp).High.Distance, along.Nearest(fp).High.Distance
	}
	if w := widthOf(bank); w < 1000*ft && !s.Narrow {
		out["waterway_width"] = w
	}
	if len(fp.Links) > 0 {
		out["narrowest_opening"] = fp.Links[0].Width
	}
	for _, l := range fp.Links {
		if l.Width >= 5*ft {
			out["openings"] += ft
		}
	}
	for name := range out {
		out[name] /= ft
	}
	return out
}
