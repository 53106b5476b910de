// Package area says whether areas are valid, repairs those that are not, and cuts the plane
// into areas along lines. What an area covers is what its rings enclose by the even-odd
// rule.
//
// It may import crs and flat; only this package and geo import an overlay library. Start
// with area.go for validity, repair.go for repairs, cells.go for cutting.
package area
