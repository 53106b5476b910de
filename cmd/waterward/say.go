package main

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"waterward/geo/text"
)

// longestLine is how much of a line is printed, in characters: a message may quote
// what of an input is endless.
const longestLine = 10_000

// say prints a message, line by line.
func say(stderr io.Writer, message string) {
	for _, line := range strings.Split(message, "\n") {
		if runes := []rune(line); len(runes) > longestLine {
			line = string(runes[:longestLine]) + "..."
		}
		fmt.Fprintln(stderr, "waterward:", text.Visible(line))
	}
}

// printed prints a page, which may quote an input.
func printed(stdout io.Writer, write func(io.Writer) error) error {
	var page bytes.Buffer
	if err := write(&page); err != nil {
		return err
	}
	_, err := io.WriteString(stdout, text.Lines(page.String()))
	return err
}
