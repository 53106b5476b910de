package rules

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"
)

// form reads the nodes of one book and collects what is wrong with them.
type form struct {
	file     string
	problems []Problem
}

func (f *form) addAt(line, column int, format string, args ...any) {
	f.problems = append(f.problems, Problem{f.file, line, column, fmt.Sprintf(format, args...)})
}

func (f *form) add(n *yaml.Node, format string, args ...any) {
	f.addAt(max(n.Line, 1), max(n.Column, 1), format, args...)
}

func (f *form) failed() error {
	if len(f.problems) == 0 {
		return nil
	}
	slices.SortStableFunc(f.problems, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return &LoadError{Problems: f.problems}
}

// section is a mapping whose keys have been checked.
type section struct {
	at     *yaml.Node
	title  string // for messages: "a path"
	values map[string]*yaml.Node
	keys   map[string]*yaml.Node
}

// section reads a mapping with known keys; the first list must be there.
func (f *form) section(n *yaml.Node, title string, required, optional []string) section {
	s := section{at: n, title: title, values: map[string]*yaml.Node{}, keys: map[string]*yaml.Node{}}
	known := slices.Concat(required, optional)
	if n.Kind != yaml.MappingNode {
		f.add(n, "%s is written as keys with values: %s", title, list(known))
		return s
	}
	for _, p := range f.pairs(n) {
		name := p.key.Value
		if !slices.Contains(known, name) {
			f.add(p.key, "unknown key %q in %s: %s", name, title, instead(name, known))
			continue
		}
		s.keys[name], s.values[name] = p.key, p.value
	}
	for _, key := range required {
		if s.values[key] == nil {
			f.add(n, "%s needs the key %q", title, key)
		}
	}
	return s
}

// renamed are keys of earlier books under their present names.
var renamed = map[string]string{"standing": "certainty", "reading": "interpretation", "readings": "interpretations"}

// instead says what to write for a key that is not known.
func instead(name string, known []string) string {
	if now := renamed[name]; slices.Contains(known, now) {
		return fmt.Sprintf("it is called %q now", now)
	}
	return suggest(name, known)
}

// pair is a key of a mapping with its value.
type pair struct{ key, value *yaml.Node }

// pairs returns the keys of a mapping, reporting those that are no text or come
// twice.
func (f *form) pairs(n *yaml.Node) []pair {
	var out []pair
	seen := map[string]*yaml.Node{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		if key.Kind != yaml.ScalarNode {
			f.add(key, "a key is one word")
			continue
		}
		if first := seen[key.Value]; first != nil {
			f.add(key, "key %q stands here twice, first in line %d: keep one", key.Value, first.Line)
			continue
		}
		seen[key.Value] = key
		out = append(out, pair{key, value})
	}
	return out
}

func isNull(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == "!!null" }

// text reads a key's value as text; a missing key gives "" (and was reported if
// it is required).
func (f *form) text(s section, key string) string {
	n := s.values[key]
	if n == nil {
		return ""
	}
	if n.Kind != yaml.ScalarNode {
		f.add(n, "%q is one piece of text", key)
		return ""
	}
	if isNull(n) || strings.TrimSpace(n.Value) == "" {
		f.add(n, "%q is empty: write its text or leave the key out", key)
		return ""
	}
	return strings.Join(strings.Fields(n.Value), " ") // a title over two lines is one line
}

var (
	idForm   = regexp.MustCompile(`^[a-z0-9]+([-_][a-z0-9]+)*$`)
	wordForm = regexp.MustCompile(`^[a-z][a-z0-9_]*$`)
)

func (f *form) id(s section, key string) string {
	text := f.text(s, key)
	if text != "" && !idForm.MatchString(text) {
		f.add(s.values[key], "%q is no %s: use lower-case letters and digits, joined by - or _", text, key)
		return ""
	}
	return text
}

// choice reads one of a few words.
func (f *form) choice(s section, key string, words ...string) string {
	text := f.text(s, key)
	if text != "" && !slices.Contains(words, text) {
		f.add(s.values[key], "unknown %s %q: %s", key, text, suggest(text, words))
		return ""
	}
	return text
}

// day reads a date; null gives the zero time.
func (f *form) day(s section, key string) time.Time {
	n := s.values[key]
	if n == nil || isNull(n) {
		return time.Time{}
	}
	day, err := time.Parse(dayLayout, n.Value)
	if n.Kind != yaml.ScalarNode || err != nil {
		f.add(n, "%q is no date: write it as 2026-03-15", n.Value)
	}
	return day
}

// items reads a list; a missing key gives none.
func (f *form) items(s section, key string) []*yaml.Node {
	n := s.values[key]
	if n == nil {
		return nil
	}
	if n.Kind != yaml.SequenceNode {
		f.add(n, "%q is a list: write [] for none", key)
		return nil
	}
	return n.Content
}

// words reads a list of words that is not empty.
func (f *form) words(n *yaml.Node, key string) []string {
	if n.Kind != yaml.SequenceNode || len(n.Content) == 0 {
		f.add(n, "%q is a list of words: write it as [one, two]", key)
		return nil
	}
	var out []string
	for _, item := range n.Content {
		if item.Kind != yaml.ScalarNode || isNull(item) || plain(item.Value) == "" {
			f.add(item, "each entry of %q is one word or name", key)
			continue
		}
		out = append(out, strings.TrimSpace(item.Value))
	}
	return out
}
