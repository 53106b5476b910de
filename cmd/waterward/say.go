package main

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"unicode"
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
		fmt.Fprintln(stderr, "waterward:", harmless(line))
	}
}

// printed prints a page, which may quote an input.
func printed(stdout io.Writer, write func(io.Writer) error) error {
	var page bytes.Buffer
	if err := write(&page); err != nil {
		return err
	}
	_, err := io.WriteString(stdout, harmless(page.String()))
	return err
}

// harmless takes out of a text what would steer a terminal or turn the order in
// which it is read.
func harmless(text string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsControl(c) && c != '\n' || unicode.Is(unicode.Bidi_Control, c) {
			return '?'
		}
		return c
	}, text)
}
