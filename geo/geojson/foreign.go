package geojson

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"fmt"
	"path"
	"regexp"
	"strings"
	"unicode/utf8"
)

const (
	// inArchive is how much of an archive is looked at for the names of what it holds, in bytes.
	inArchive = 64 << 10
	// inProlog is how much may stand before the first element of an XML text, in bytes.
	inProlog = 4 << 10
)

var kmlElement = regexp.MustCompile(`<([A-Za-z]+:)?kml[\s>]`)

// foreign says of a file that is a layer in another form than GeoJSON, by its first bytes,
// what it is and how the usual converter makes GeoJSON of it; empty if it is none.
func foreign(file string, in *window) string {
	c := conversion{file: file, from: file}
	if _, packed := in.in.(*gzip.Reader); packed {
		c.from = "/vsigzip/" + file
	}
	if folder := geodatabase(file); folder != "" && !in.begins("{") {
		c.from, c.stem, c.several = folder, folder, true
		return c.says("part of a file geodatabase, a folder")
	}
	switch {
	case in.begins("SQLite format 3\x00"): // the application id stands at byte 68
		in.fill(72)
		c.several = true
		if text := in.text(); len(text) < 72 || !bytes.HasPrefix(text[68:], []byte("GP")) {
			return c.says("an SQLite database")
		}
		return c.says("a GeoPackage")
	case in.begins("\x00\x00\x27\x0a"):
		return c.says("a shapefile")
	case in.begins("fgb"):
		return c.says("a FlatGeobuf file")
	case in.begins("PK\x03\x04"):
		in.fill(inArchive)
		return c.archive(in.text())
	case in.begins("<"):
		in.fill(inProlog)
		if text := in.text(); kmlElement.Match(text[:min(len(text), inProlog)]) {
			c.several = true
			return c.says("a KML file")
		}
	}
	return ""
}

// geodatabase is the folder of the file geodatabase that a file is part of; empty if none.
func geodatabase(file string) string {
	for at := path.Dir(file); at != "." && at != "/"; at = path.Dir(at) {
		if strings.EqualFold(path.Ext(at), ".gdb") {
			return at
		}
	}
	return ""
}

// conversion is a line that makes GeoJSON of a file.
type conversion struct {
	file, from string
	stem       string // whose name the result has; empty: the file's
	several    bool   // the file may hold several layers
}

func (c conversion) says(what string) string {
	if c.file == "-" {
		return fmt.Sprintf("it is %s, not GeoJSON; save it as a file and convert that with ogr2ogr -f GeoJSON", what)
	}
	which := ""
	if c.several {
		which = fmt.Sprintf(" (where ogrinfo %s lists several layers, add the name of one at the end)", quoted(c.from))
	}
	return fmt.Sprintf("it is %s, not GeoJSON; convert it%s: ogr2ogr -f GeoJSON %s %s", what, which, quoted(c.to()), quoted(c.from))
}

// to is the name of the result: that of the file with another ending.
func (c conversion) to() string {
	stem := strings.TrimSuffix(c.file, ".gz")
	if c.stem != "" {
		stem = c.stem
	}
	stem = strings.TrimSuffix(stem, path.Ext(stem))
	if to := stem + ".geojson"; to != c.file {
		return to
	}
	return stem + "_converted.geojson"
}

// shapefileParts are the endings of the files of a shapefile.
var shapefileParts = []string{".shp", ".dbf", ".shx", ".prj", ".cpg", ".sbn", ".sbx"}

// archive says what the layer in a zip archive is of which the first bytes are given.
func (c conversion) archive(head []byte) string {
	zip := "/vsizip/" + c.from + "/"
	if ending := strings.ToLower(path.Ext(c.file)); ending != ".zip" && ending != ".kmz" {
		zip = "/vsizip/{" + c.from + "}/"
	}
	names := entries(head)
	for _, name := range names {
		if folder := geodatabase(name); folder != "" {
			c.from, c.several = zip+folder, true
			return c.says("a zipped file geodatabase")
		}
	}
	for _, ending := range append(shapefileParts, ".kml", ".gpkg", ".geojson", ".json") {
		for _, name := range names {
			if !strings.EqualFold(path.Ext(name), ending) {
				continue
			}
			c.from = zip + name
			switch ending {
			case ".kml":
				c.several = true
				return c.says("a zipped KML file (KMZ)")
			case ".gpkg":
				c.several = true
				return c.says("a zipped GeoPackage")
			case ".geojson", ".json":
				return fmt.Sprintf("it is a zip archive; unpack it and give %q in it", name)
			case ".shp":
				return c.says("a zipped shapefile")
			}
			c.from = strings.TrimSuffix(c.from, path.Ext(name)) + ".shp"
			return c.says("a zipped shapefile")
		}
	}
	return "it is a zip archive; unpack it and give the GeoJSON in it, or convert what is in it with ogr2ogr -f GeoJSON"
}

// entries are the names in the local headers of a zip archive, as far as it is given.
func entries(head []byte) []string {
	const header = 30 // bytes before the name, whose length stands at 26
	var names []string
	for from := 0; ; {
		at := bytes.Index(head[from:], []byte("PK\x03\x04"))
		if at < 0 || from+at+header > len(head) {
			return names
		}
		from += at + header
		n := int(binary.LittleEndian.Uint16(head[from-4:]))
		if n > 0 && from+n <= len(head) && utf8.Valid(head[from:from+n]) {
			names = append(names, string(head[from:from+n]))
		}
	}
}

// bareWord is what a POSIX shell takes as it stands (IEEE 1003.1, Shell Command Language, 2.2).
var bareWord = regexp.MustCompile(`^[A-Za-z0-9_./:,@%+][A-Za-z0-9_./:,@%+-]*$`)

// quoted is a file's name as one word of a POSIX shell, and no option.
func quoted(name string) string {
	if strings.HasPrefix(name, "-") {
		name = "./" + name
	}
	if bareWord.MatchString(name) {
		return name
	}
	return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'"
}
