package field

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// hostile are ids as an applicant may write them.
var hostile = []string{
	`<script>alert(1)</script>`, `"quoted" & 'more' ]]>`, "a\x00\x07\x1bb\r\n\tc", "\u202egnp.eliF\u202c", strings.Repeat("long", 50),
	"\ufffe\uffff", "caf\xe9", "", "   ", strings.Repeat("x", 190) + "0001", strings.Repeat("y", 190) + "0001", "p-1", "P-1", "#3", "&lt;b&gt;", "=1+1",
}

func siteOf(id string) *Site {
	at := orb.Point{-74.599444016, 30.000025845}
	return &Site{
		ID: id, Caution: "to find",
		Points: []Point{{Corners, "element 1", "1 NE", "corner " + id, at}, {Toes, "reach", "T", "9.40 ft", at}, {Openings, "opening 1-2", "1-2 a", "5 ft", at}},
		Lines: []Line{
			{Kind: Outlines, Name: "element 1", Says: "outline", Area: orb.MultiPolygon{{{at, {-74.5, 30}, {-74.5, 30.1}, at}, {at, {-74.51, 30.01}, {-74.51, 30.02}, at}}}},
			{Kind: Outlines, Name: "element 2", Says: "outline", Area: orb.MultiPolygon{{{at, {-74.5, 30}, {-74.5, 30.1}, at}}, {{at, {-74.7, 30}, {-74.7, 30.1}, at}}}},
			{Kind: Distances, Name: "reach", Says: "9.40 ft", Line: orb.LineString{at, {-74.6, 30}}},
		},
	}
}

type kmlFile struct {
	Name        string   `xml:"Document>name"`
	Description string   `xml:"Document>description"`
	Folders     []folder `xml:"Document>Folder"`
}

type folder struct {
	Name       string `xml:"name"`
	Placemarks []struct {
		Name        string    `xml:"name"`
		Description *struct{} `xml:"description"`
		Data        []struct {
			Name  string `xml:"name,attr"`
			Value string `xml:"value"`
		} `xml:"ExtendedData>Data"`
		Point   string   `xml:"Point>coordinates"`
		Line    string   `xml:"LineString>coordinates"`
		Outer   string   `xml:"Polygon>outerBoundaryIs>LinearRing>coordinates"`
		Inner   string   `xml:"Polygon>innerBoundaryIs>LinearRing>coordinates"`
		Several []string `xml:"MultiGeometry>Polygon>outerBoundaryIs>LinearRing>coordinates"`
	} `xml:"Placemark"`
}

func opened(t *testing.T, kmz []byte) (made kmlFile, text string) {
	archive, err := zip.NewReader(bytes.NewReader(kmz), int64(len(kmz)))
	require.NoError(t, err)
	require.Equal(t, "doc.kml", archive.File[0].Name) // OGC KML 2.2, annex C: the first .kml is shown
	require.Equal(t, 1980, archive.File[0].Modified.Year())
	file, err := archive.File[0].Open()
	require.NoError(t, err)
	doc, err := io.ReadAll(file)
	require.NoError(t, err)
	require.NoError(t, xml.Unmarshal(doc, &made))
	return made, string(doc)
}

func TestKMZ(t *testing.T) {
	var kmz bytes.Buffer
	require.NoError(t, WriteKMZ(&kmz, About{"Place: to find", "On WGS 84"}, []*Site{siteOf("P-01")}))
	doc, text := opened(t, kmz.Bytes())
	require.Equal(t, "Place: to find", doc.Name)
	require.Equal(t, "On WGS 84", doc.Description)
	var titles []string
	for _, f := range doc.Folders {
		titles = append(titles, f.Name)
	}
	require.Equal(t, []string{"Outlines", "Corners, ends and centres", "Farthest toes", "Openings", "Distances measured"}, titles)
	corner := doc.Folders[1].Placemarks[0]
	require.Equal(t, "P-01 1 NE", corner.Name)
	require.Equal(t, "-74.599444,30.0000258", corner.Point) // 7 decimals, no height; rounded by hand
	require.Equal(t, "-74.599444,30.0000258 -74.6,30", doc.Folders[4].Placemarks[0].Line)
	outline := doc.Folders[0].Placemarks[0]
	require.Equal(t, "-74.599444,30.0000258 -74.5,30 -74.5,30.1 -74.599444,30.0000258", outline.Outer)
	require.Equal(t, "-74.599444,30.0000258 -74.51,30.01 -74.51,30.02 -74.599444,30.0000258", outline.Inner)
	require.Len(t, doc.Folders[0].Placemarks[1].Several, 2)
	require.NotContains(t, text, "http://www.google") // it fetches nothing: the one address is the name of the format
	require.Equal(t, 1, strings.Count(text, "http"))
}

// What an applicant writes is never in a description, which viewers run, and no mark in a
// name or a value; whatever it is, the files are XML.
func TestHostileIds(t *testing.T) {
	var sites []*Site
	for _, id := range hostile {
		sites = append(sites, siteOf(id))
	}
	var kmz, gpx bytes.Buffer
	about := About{"Place: to find", "On WGS 84"}
	require.NoError(t, WriteKMZ(&kmz, about, sites))
	require.NoError(t, WriteGPX(&gpx, about, sites))
	doc, text := opened(t, kmz.Bytes())
	require.True(t, utf8.ValidString(text))
	for _, f := range doc.Folders {
		for _, p := range f.Placemarks {
			require.Nil(t, p.Description)
			require.NotContains(t, p.Name, "<")
			require.Len(t, p.Data, 3)
			for _, d := range p.Data {
				require.NotContains(t, d.Value, "<")
				require.NotContains(t, d.Value, "\u202e")
			}
		}
	}
	require.Equal(t, "‹script›alert(1)‹/script› 1 NE", doc.Folders[1].Placemarks[0].Name)
	require.Equal(t, `"quoted" & 'more' ]]› 1 NE`, doc.Folders[1].Placemarks[1].Name)
	require.Equal(t, `a\u0000\u0007\u001bb\u000d\u000a\u0009c 1 NE`, doc.Folders[1].Placemarks[2].Name)

	var read struct {
		Wpt []struct {
			Lat  float64 `xml:"lat,attr"`
			Lon  float64 `xml:"lon,attr"`
			Name string  `xml:"name"`
			Desc string  `xml:"desc"`
		} `xml:"wpt"`
		Trk []struct {
			Name string `xml:"name"`
			Seg  []struct {
				Pt []struct {
					Lat float64 `xml:"lat,attr"`
				} `xml:"trkpt"`
			} `xml:"trkseg"`
		} `xml:"trk"`
	}
	require.NoError(t, xml.Unmarshal(gpx.Bytes(), &read))
	require.Len(t, read.Wpt, 3*len(hostile))
	seen := map[string]bool{}
	for i, w := range read.Wpt {
		require.LessOrEqual(t, utf8.RuneCountInString(w.Name), longestName, w.Name)
		require.False(t, seen[strings.ToUpper(w.Name)], w.Name)
		seen[strings.ToUpper(w.Name)] = true
		require.NotContains(t, w.Desc, "<")
		require.Contains(t, w.Desc, "to find")
		require.InDelta(t, 30.0000258, w.Lat, 1e-12, i)
		require.InDelta(t, -74.599444, w.Lon, 1e-12, i)
	}
	require.Len(t, read.Trk, 3*len(hostile))
	require.Len(t, read.Trk[0].Seg, 2)
	require.Len(t, read.Trk[2].Seg[0].Pt, 2)
}

// Worked by hand: "1-2a" leaves 7 characters to the id.
func TestShortNames(t *testing.T) {
	var sites []*Site
	for _, id := range []string{"P-05", "SAJ-2024-00123", "SAJ-2025-00123", "p-05", "4-00123", "", "#3", "1234567", "12345678"} {
		sites = append(sites, siteOf(id))
	}
	require.Equal(t, []string{"P-05", "#2", "5-00123", "#4", "4-00123", "#6", "#3", "1234567", "2345678"}, shortNames(sites))
	require.Equal(t, []string{"4-00123", "5-00123"}, shortNames([]*Site{siteOf("SAJ-2024-00123"), siteOf("SAJ-2025-00123")}))
	long := siteOf("P-05")
	long.Points[0].Name = strings.Repeat("1", 30)
	require.Equal(t, []string{"#1"}, shortNames([]*Site{long}), "whatever the point is called")
}

// Rounded so, a position is written with no more digits than it is good to.
func TestFlat(t *testing.T) {
	for _, p := range []float64{-74.599444016, 30.00002584549, -0.00000005, 179.99999999} {
		got := flat(nil, orb.Point{p, p})[0]
		require.InDelta(t, p, got, 0.5000001e-7)
		require.InDelta(t, math.Round(got*1e7), got*1e7, 1e-5)
	}
}
