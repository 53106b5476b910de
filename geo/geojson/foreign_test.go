package geojson

import (
	"archive/zip"
	"bytes"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/require"
)

// sqlite is the header of a database with an application id at byte 68 (SQLite, Database File
// Format, 1.3).
func sqlite(id string) string {
	head := make([]byte, 100)
	copy(head, "SQLite format 3\x00")
	copy(head[68:], id)
	return string(head)
}

func zipped(t *testing.T, names ...string) string {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, name := range names {
		entry, err := w.Create(name)
		require.NoError(t, err)
		_, err = io.WriteString(entry, strings.Repeat("x", 100))
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return b.String()
}

const kml = `<?xml version="1.0" encoding="UTF-8"?><!-- lines --><kml xmlns="http://www.opengis.net/kml/2.2"><Document/></kml>`

// Layers in other forms are known by their first bytes, whatever they are called, and the
// message ends with the line that converts them. The bytes are published: OGC 12-128, GeoPackage
// Encoding Standard, requirements 1 and 2 ("GPKG", before 1.2 "GP10" and "GP11"); ESRI Shapefile
// Technical Description (1998), table 1 (9994, most significant byte first); FlatGeobuf, file
// format specification; OGC 12-007, KML, root element; PKWARE, APPNOTE 4.3.7. The lines, worked by
// hand, make GeoJSON of such files with GDAL 3.6.
func TestLayersInOtherForms(t *testing.T) {
	const several = " (where ogrinfo %s lists several layers, add the name of one at the end)"
	of := func(name string) string { return strings.ReplaceAll(several, "%s", name) }
	for _, c := range []struct{ file, text, says string }{
		{"county.gpkg", sqlite("GPKG"), "it is a GeoPackage, not GeoJSON; convert it" + of("county.gpkg") + ": ogr2ogr -f GeoJSON county.geojson county.gpkg"},
		{"in/county.gpkg", sqlite("GP10"), "it is a GeoPackage, not GeoJSON; convert it" + of("in/county.gpkg") + ": ogr2ogr -f GeoJSON in/county.geojson in/county.gpkg"},
		{"a.sqlite", sqlite(""), "it is an SQLite database, not GeoJSON; convert it" + of("a.sqlite") + ": ogr2ogr -f GeoJSON a.geojson a.sqlite"},
		{"a.geojson", sqlite("GPKG"), "it is a GeoPackage, not GeoJSON; convert it" + of("a.geojson") + ": ogr2ogr -f GeoJSON a_converted.geojson a.geojson"},
		{"Bob's reefs.shp", "\x00\x00\x27\x0a\x00\x00\x00\x00", `it is a shapefile, not GeoJSON; convert it: ogr2ogr -f GeoJSON 'Bob'\''s reefs.geojson' 'Bob'\''s reefs.shp'`},
		{"-f.fgb", "fgb\x03fgb\x01\x00", "it is a FlatGeobuf file, not GeoJSON; convert it: ogr2ogr -f GeoJSON ./-f.geojson ./-f.fgb"},
		{"$x.kml", kml, "it is a KML file, not GeoJSON; convert it" + of("'$x.kml'") + ": ogr2ogr -f GeoJSON '$x.geojson' '$x.kml'"},
		{"a.kml", "\xef\xbb\xbf<kml:kml xmlns:kml='http://www.opengis.net/kml/2.2'>", "it is a KML file, not GeoJSON; convert it" + of("a.kml") + ": ogr2ogr -f GeoJSON a.geojson a.kml"},
		{"a.kml.gz", packed(t, kml), "it is a KML file, not GeoJSON; convert it" + of("/vsigzip/a.kml.gz") + ": ogr2ogr -f GeoJSON a.geojson /vsigzip/a.kml.gz"},
		{"a.zip", zipped(t, "m.cpg", "m.dbf", "m.prj", "m.SHP"), "it is a zipped shapefile, not GeoJSON; convert it: ogr2ogr -f GeoJSON a.geojson /vsizip/a.zip/m.SHP"},
		{"a.zip", zipped(t, "in/m.dbf"), "it is a zipped shapefile, not GeoJSON; convert it: ogr2ogr -f GeoJSON a.geojson /vsizip/a.zip/in/m.shp"},
		{"a.bin", zipped(t, "m.shp"), "it is a zipped shapefile, not GeoJSON; convert it: ogr2ogr -f GeoJSON a.geojson '/vsizip/{a.bin}/m.shp'"},
		{"a.kmz", zipped(t, "doc.kml"), "it is a zipped KML file (KMZ), not GeoJSON; convert it" + of("/vsizip/a.kmz/doc.kml") + ": ogr2ogr -f GeoJSON a.geojson /vsizip/a.kmz/doc.kml"},
		{"a.zip", zipped(t, "c.gdb/a00000001.gdbtable"), "it is a zipped file geodatabase, not GeoJSON; convert it" + of("/vsizip/a.zip/c.gdb") + ": ogr2ogr -f GeoJSON a.geojson /vsizip/a.zip/c.gdb"},
		{"a.zip", zipped(t, "c.gpkg"), "it is a zipped GeoPackage, not GeoJSON; convert it" + of("/vsizip/a.zip/c.gpkg") + ": ogr2ogr -f GeoJSON a.geojson /vsizip/a.zip/c.gpkg"},
		{"a.zip", zipped(t, "c.geojson"), `it is a zip archive; unpack it and give "c.geojson" in it`},
		{"a.zip", zipped(t, "c.txt"), "it is a zip archive; unpack it and give the GeoJSON in it, or convert what is in it with ogr2ogr -f GeoJSON"},
		{"in/c.gdb/a00000001.gdbtable", "\x03\x00\x00\x00", "it is part of a file geodatabase, a folder, not GeoJSON; convert it" + of("in/c.gdb") + ": ogr2ogr -f GeoJSON in/c.geojson in/c.gdb"},
		{"-", "fgb\x03fgb\x01", "it is a FlatGeobuf file, not GeoJSON; save it as a file and convert that with ogr2ogr -f GeoJSON"},
	} {
		for _, in := range []io.Reader{strings.NewReader(c.text), iotest.OneByteReader(strings.NewReader(c.text))} {
			_, err := NewReader(c.file, in)
			require.EqualError(t, err, c.file+": "+c.says)
		}
	}
	// What only looks like one is read as GeoJSON is.
	for _, text := range []string{"<html><body>kml</body></html>", "PK", "SQLite", "\x00\x00\x27", "<"} {
		r, err := NewReader("a.kml", strings.NewReader(text))
		require.NoError(t, err, text)
		_, err = r.Next()
		require.ErrorContains(t, err, "is this a GeoJSON file?")
	}
	r, err := NewReader("c.gdb/a.geojson", strings.NewReader(collection))
	require.NoError(t, err)
	_, err = r.Next()
	require.NoError(t, err)
}
