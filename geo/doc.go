// Package geo says where things are: features as read, the plane local to a
// site, mapped lines and areas, distances, sides, stations and limit lines.
//
// It knows no rules and opens no files. Its exported API speaks orb types and
// plain numbers. Positions are longitude and latitude in degrees (RFC 7946)
// until a [Plane] carries them into metres around one site; every distance is
// measured there and is in metres unless its name says otherwise.
package geo
