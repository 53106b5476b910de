// Package work does pieces of work on several workers and hands on what each made, in the
// order of the pieces. It imports no other package of this project.
package work
