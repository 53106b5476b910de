// Package flat is geometry in a plane: points, segments and boxes, which side of a line a
// point lies on without rounding, and an index of boxes that never changes. It knows
// nothing of the earth; its unit is whatever positions are given in.
//
// It imports no other package of this project. Start with point.go.
package flat
