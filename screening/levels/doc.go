// Package levels knows water levels: the tidal datums of a station, records of
// a gauge, predictions from harmonic constituents, and from any of them how
// much of the time an elevation is out of the water.
//
// Inside the package every level is in metres above the datum named beside it,
// positive up, and every time is UTC; positions are WGS 84 degrees, longitude
// first. Units and time zones are dealt with where a file is read. What is not
// known is an error that says why, never a number.
package levels
