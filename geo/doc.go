// Package geo measures a structure beside a shore: its footprint, mapped lines and areas,
// the bank it belongs to, sides, distances, openings, stations and limit lines.
//
// Positions are longitude and latitude in degrees (RFC 7946) until a [crs.Plane] carries
// them into metres around one site; every distance is measured there and is in metres
// unless its name says otherwise. Signed distances are positive waterward.
//
// It knows no rules and opens no file. It may import area, geojson, crs and flat. Files that
// begin with foot_ ask of the structure, line_ of mapped lines, bank_ of the shore it
// belongs to, limit_ of what lies at a distance from it. Start with footprint.go and
// lines.go, then bank.go.
package geo
