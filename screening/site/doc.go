// Package site measures one proposal among what is mapped round it, with everything that a
// measure's certainty hangs on. Each measure has one record.
//
// It may import out, layers, inputs, job, levels, rules and geo. Start with site.go, then
// measures.go.
package site
