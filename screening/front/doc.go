// Package front finds which stretch of the mean high water line each parcel fronts.
//
// It may import site, layers, job, work and geo. Start with front.go.
package front
