// Package out writes what a run finds: tables, feature collections and their records for
// run.json. A [Sink] is one file that takes results in order.
//
// It may import job, geojson and crs. Start with sink.go.
package out
