// Package front finds which stretch of the mean high water line each parcel fronts,
// and why parcels near it front none.
//
// It may import site, layers, job, work and geo. Start with front.go.
package front
