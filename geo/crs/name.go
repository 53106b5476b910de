package crs

import (
	"fmt"
	"strconv"
	"strings"
)

// Parse understands EPSG:n, urn:ogc:def:crs:EPSG::n and
// http://www.opengis.net/def/crs/EPSG/0/n, with or without a version, the OGC's
// names of CRS84 (WGS 84) and CRS83 (NAD83), and a bare number. Systems in
// degrees are longitude first, as GeoJSON has it, though the registry puts the
// latitude of EPSG:4326 first.
func Parse(name string) (*System, error) {
	text := strings.ToUpper(strings.TrimSpace(name))
	for _, scheme := range []string{"HTTP://WWW.OPENGIS.NET/DEF/CRS/", "HTTPS://WWW.OPENGIS.NET/DEF/CRS/"} {
		if path, ok := strings.CutPrefix(text, scheme); ok {
			text = strings.ReplaceAll(path, "/", ":")
		}
	}
	parts := strings.Split(strings.TrimPrefix(text, "URN:OGC:DEF:CRS:"), ":")
	id := parts[len(parts)-1]
	number, err := strconv.Atoi(id)
	switch {
	case len(parts) > 3:
	case len(parts) > 1 && parts[0] == "OGC":
		switch id {
		case "CRS84":
			return byCode[4326], nil
		case "CRS83":
			return byCode[4269], nil
		}
	case err == nil && (len(parts) == 1 || parts[0] == "EPSG" || parts[0] == "ESRI" && aliases[number] != 0):
		if c, ok := byCode[number]; ok {
			return c, nil
		}
		if why, ok := unusable[number]; ok {
			return nil, fmt.Errorf("EPSG:%d %s", number, why)
		}
		return nil, fmt.Errorf("EPSG:%d is not among the coordinate systems known here, which are %s; export the layer in one of these", number, families)
	}
	return nil, fmt.Errorf("%.80q is not the name of a coordinate system known here; write it as EPSG:n, such as EPSG:6438; known are %s", name, families)
}

const families = "longitude and latitude (EPSG:4326, 4269, 4152, 4759, 6318), Web Mercator (3857), UTM zones 15 to 20 north (as 26917, 6346, 32617), " +
	"the State Plane zones of Florida, North Carolina and Virginia in metres or US survey feet (as 6437, 6438), and Florida GDL Albers (3086, 3087, 3513, 6439)"

// aliases are numbers in use for systems that the registry numbers otherwise.
var aliases = map[int]int{900913: 3857, 102100: 3857, 102113: 3857}

// unusable says of codes met in coastal data why a layer cannot be in them.
var unusable = map[int]string{
	3359: "was withdrawn by the registry because it named the wrong foot; North Carolina in US survey feet is EPSG:3404",
	4267: "is on NAD27, which is no realization of NAD83 and must be transformed, not only named; export the layer on NAD83(2011), EPSG:6318",
	4978: geocentric,
	4956: geocentric,
	4892: geocentric,
	6317: geocentric,
	4979: "has heights; its horizontal part is EPSG:4326",
	4957: "has heights; its horizontal part is EPSG:4152",
	4893: "has heights; its horizontal part is EPSG:4759",
	6319: "has heights; its horizontal part is EPSG:6318",
	5498: "has heights; its horizontal part is EPSG:4269",
	5500: "has heights; its horizontal part is EPSG:4759",
	6349: "has heights; its horizontal part is EPSG:6318",
	5703: heightsOnly,
	6360: heightsOnly,
	8228: heightsOnly,
}

const (
	geocentric  = "counts from the centre of the earth; export the layer as longitude and latitude, EPSG:4326 or EPSG:6318"
	heightsOnly = "says how heights are counted, not where things are; name the horizontal system of the layer"
)
