// Package crs carries positions between coordinate systems: by name or code to longitude
// and latitude and back, between datums as far as they can differ, and into the plane
// round one site ([Plane]) in which everything is measured, in metres.
//
// It may import flat. Start with system.go for what a file is written in, with plane.go for
// what is measured in.
package crs
