package rules

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
)

// maxBook is the largest book read, in bytes; a book of a hundred paths is a
// tenth of it.
const maxBook = 1 << 20

// Problem is one thing wrong with a book, and what to write instead.
type Problem struct {
	File         string
	Line, Column int // counted from 1
	Message      string
}

func (p Problem) String() string { return p.place() + ": " + p.Message }

func (p Problem) place() string { return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column) }

// LoadError holds every problem of a book, in the order of the file.
type LoadError struct {
	Problems []Problem
}

// Error prints one problem a line as file:line:column: message.
func (e *LoadError) Error() string {
	lines := make([]string, len(e.Problems))
	for i, p := range e.Problems {
		lines[i] = p.String()
	}
	return strings.Join(lines, "\n")
}

// Load reads a rule book strictly: what it does not know is an error. The name
// is only for messages. If the book has problems the error is a *LoadError with
// all of them.
func Load(name string, r io.Reader) (*Book, error) {
	text, err := io.ReadAll(io.LimitReader(r, maxBook+1))
	if err != nil {
		return nil, fmt.Errorf("%s: cannot be read: %w", name, err)
	}
	form := &form{file: name}
	root := form.parse(text)
	if root == nil {
		return nil, form.failed()
	}
	book := form.book(root)
	if err := form.failed(); err != nil {
		return nil, err
	}
	return book, nil
}

// parse returns the top node of the only document, or nil with problems.
func (f *form) parse(text []byte) *yaml.Node {
	if len(text) > maxBook {
		f.addAt(1, 1, "the book is over 1 MiB: a rule book is far smaller, so this is another file, or several books")
		return nil
	}
	if line, column, what := unreadable(text); what != "" {
		f.addAt(line, column, "%s: save the book as plain UTF-8 text", what)
		return nil
	}
	decoder := yaml.NewDecoder(strings.NewReader(string(text)))
	var document, second yaml.Node
	if err := decoder.Decode(&document); err != nil {
		f.syntax(err)
		return nil
	}
	switch err := decoder.Decode(&second); {
	case err == nil:
		f.add(&second, "a second document starts here: put each book in a file of its own")
	case !errors.Is(err, io.EOF):
		f.syntax(err)
	}
	f.refuseReferences(&document)
	if len(f.problems) > 0 {
		return nil
	}
	if len(document.Content) == 0 || isNull(document.Content[0]) {
		f.syntax(io.EOF)
		return nil
	}
	return document.Content[0]
}

// syntax reports a document that is not YAML.
func (f *form) syntax(err error) {
	if errors.Is(err, io.EOF) {
		f.addAt(1, 1, "the book is empty: it starts with the line book: NAME")
		return
	}
	var syntax *yaml.LoadError
	if errors.As(err, &syntax) {
		f.addAt(max(syntax.Mark.Line, 1), max(syntax.Mark.Column, 1), "not valid YAML: %s", syntax.Message)
		return
	}
	f.addAt(1, 1, "not valid YAML: %v", err)
}

// unreadable finds the first byte that text in YAML cannot hold.
func unreadable(text []byte) (line, column int, what string) {
	line, column = 1, 1
	if bytes.HasPrefix(text, []byte("\xff\xfe")) || bytes.HasPrefix(text, []byte("\xfe\xff")) {
		return line, column, "a text in UTF-16"
	}
	for i := 0; i < len(text); {
		char, size := utf8.DecodeRune(text[i:])
		switch {
		case char == utf8.RuneError && size == 1:
			return line, column, fmt.Sprintf("a byte that is not UTF-8 (%#02x, at offset %d)", text[i], i)
		case char < ' ' && char != '\t' && char != '\n' && char != '\r' || char == 0x7f:
			return line, column, fmt.Sprintf("control character %#02x", char)
		case char == '\n':
			line, column = line+1, 0
		}
		i += size
		column++
	}
	return 0, 0, ""
}

// refuseReferences reports anchors, aliases and tags: a book repeats itself in
// the open, and a few lines of aliases could stand for gigabytes. It also reports
// what quoted text can hold and no text should.
func (f *form) refuseReferences(n *yaml.Node) {
	switch {
	case n.Kind == yaml.AliasNode:
		f.add(n, "an alias (*%s): write the value out", n.Value)
		return
	case n.Anchor != "":
		f.add(n, "an anchor (&%s): write the value out where it is needed", n.Anchor)
	case n.Style&yaml.TaggedStyle != 0:
		f.add(n, "a tag (%s): leave it out", n.Tag)
	}
	if n.Kind == yaml.ScalarNode && strings.ContainsFunc(n.Value, steers) {
		f.add(n, "a control character, written as an escape: take it out")
	}
	for _, child := range n.Content {
		f.refuseReferences(child)
	}
}

// steers reports a character that would steer a terminal or a printer.
func steers(c rune) bool { return unicode.IsControl(c) && c != '\n' && c != '\t' }
