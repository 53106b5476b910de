// Package drawing draws on paper in black on white, as offices that file and copy drawings
// ask for it: lines told apart by width and dash, hatches and dots of explicit strokes, and
// words that stand in place and cover neither one another nor what matters. It is told what
// to draw in hundredths of an inch, right and down from the upper left corner of a sheet,
// and knows no rules, no maps and no files.
//
// All fills are explicit lines, since browsers print patterns as grey pictures; behind words
// stands a white rectangle and no halo, since a halo doubles the text of a PDF.
//
// It imports nothing of ours. Start with canvas.go, then place.go.
package drawing
