// Package geojson reads features and writes them back (RFC 7946, newline-delimited,
// RFC 8142), each with its members as they stood. A feature that cannot be used says why
// and does not end the file.
//
// It may import crs and flat. Start with reader.go; onepass.go reads a feature, annotate.go
// writes it with properties of ours.
package geojson
