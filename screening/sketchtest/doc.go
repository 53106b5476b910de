// Package sketchtest draws small sites for tests, in feet about an invented place, and runs
// on files in memory.
package sketchtest
