// Package layers is what is mapped: each layer read, with what of it may be missing, too old,
// misplaced, repaired or refused, and the water levels of tide stations.
//
// It may import inputs, job, levels, rules and geo. Start with layers.go for what a layer is,
// with load.go for how one is read.
package layers
