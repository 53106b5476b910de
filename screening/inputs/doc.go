// Package inputs is what a run reads: files opened, counted and hashed, signs that one is a
// part of another, and rule books.
//
// It may import job, rules and geojson. Start with inputs.go.
package inputs
