// Package envelope finds where before a parcel a structure could go: the water that meets
// each path's siting criteria, what takes the rest, and a candidate drawn in it and measured.
//
// It may import front, site, out, layers, job, rules and geo. Start with asks.go for
// what the books ask of a place, with parcel.go for what is said of a parcel.
package envelope
