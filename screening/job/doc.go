// Package job is what a run is asked: the job file, how the properties of its files are
// named, spelled and measured, and presets for files of known kinds.
//
// It may import levels, rules, geojson and crs. Start with job.go for what a job file says,
// with fields.go for how a property is read.
package job
