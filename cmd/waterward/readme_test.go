package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/rules"
)

// documents are the pages that people read, from the root.
var documents = []string{
	"README.md", "DEVELOPERS.md",
	"rules/books/README.md", "screening/README.md", "screening/levels/README.md", "testdata/bench/README.md",
}

func document(t *testing.T, name string) string {
	text, err := os.ReadFile(filepath.Join("../..", name))
	require.NoError(t, err)
	return string(text)
}

// fenced are the blocks of code of one language in a page.
func fenced(page, language string) []string {
	var blocks []string
	for _, found := range regexp.MustCompile("(?s)```"+language+"\n(.*?)```").FindAllStringSubmatch(page, -1) {
		blocks = append(blocks, found[1])
	}
	return blocks
}

// TestTheShownBook: the local book that the page on rule books shows is sound as it stands.
func TestTheShownBook(t *testing.T) {
	const page = "rules/books/README.md"
	shown := fenced(document(t, page), "yaml")
	require.Len(t, shown, 1)
	book, err := rules.Load(page, strings.NewReader(shown[0]))
	require.NoError(t, err)
	require.Empty(t, book.Check())
	require.Empty(t, book.Warnings())
}

// TestTheMeasuresAreListed: whoever writes a book finds every measure on its page.
func TestTheMeasuresAreListed(t *testing.T) {
	page := document(t, "rules/books/README.md")
	_, list, found := strings.Cut(page, "**The measures**")
	require.True(t, found)
	for m := range rules.Measures() {
		require.Regexp(t, "`"+m.Name+"[`:]", list)
	}
}

// TestTheReadmesRuns: the demo says first what the README shows, and the job it shows for a
// county of one's own runs on the demo's files.
func TestTheReadmesRuns(t *testing.T) {
	readme := document(t, "README.md")
	county := t.TempDir()
	require.NoError(t, os.CopyFS(county, os.DirFS("../../testdata/marrowby")))
	screened := filepath.Join(county, "screened")
	runs := func(job string) string {
		var said bytes.Buffer
		code := run(context.Background(), []string{"waterward", "screen", "--job", job, "--out", screened}, strings.NewReader(""), io.Discard, &said)
		require.Equal(t, exitSomeUnusable, code, said.String())
		return strings.ReplaceAll(said.String(), screened, "screened")
	}
	shown := fenced(readme, "text")
	require.Len(t, shown, 1)
	require.True(t, strings.HasPrefix(runs(filepath.Join(county, "job.yaml")), shown[0]))

	own := regexp.MustCompile(`(?s)job\.yaml <<'END'\n(.*?)END\n`).FindStringSubmatch(readme)
	require.NotNil(t, own)
	job := filepath.Join(county, "own.yaml")
	require.NoError(t, os.WriteFile(job, []byte(own[1]), 0o666))
	runs(job)
}

// TestNoTwoCommandsWriteToOneFolder, in any example of the pages and of the help.
func TestNoTwoCommandsWriteToOneFolder(t *testing.T) {
	writes := regexp.MustCompile(`waterward (\w+)[^\n]* --out (\S+)`)
	kinds := map[string]string{} // of command, by folder
	check := func(page, text string) {
		seen := map[string]bool{}
		for _, found := range writes.FindAllStringSubmatch(text, -1) {
			command, folder := found[1], found[2]
			require.False(t, seen[folder], "%s: two commands write to %s", page, folder)
			seen[folder] = true
			if other := kinds[folder]; other != "" {
				require.Equal(t, other, command, "%s: %s", page, folder)
			}
			kinds[folder] = command
		}
	}
	for _, name := range documents {
		check(name, strings.Join(fenced(document(t, name), "sh"), "\n"))
	}
	var usage bytes.Buffer
	require.Zero(t, run(context.Background(), []string{"waterward", "help"}, strings.NewReader(""), &usage, io.Discard))
	check("help", usage.String())
	require.Equal(t, "screen", kinds["screened"])
	require.Equal(t, "envelope", kinds["shore"])
}

// TestLinks: every file and heading that a page names is there, the README leads to
// every other page by one link, and it stays short.
func TestLinks(t *testing.T) {
	link := regexp.MustCompile(`\]\(([^)]*)\)`)
	heading := regexp.MustCompile(`(?m)^#+ (.*)$`)
	for _, name := range documents {
		page := document(t, name)
		anchors := map[string]bool{}
		for _, found := range heading.FindAllStringSubmatch(page, -1) {
			anchor := regexp.MustCompile(`[^a-z0-9 _-]`).ReplaceAllString(strings.ToLower(found[1]), "")
			anchors[strings.ReplaceAll(anchor, " ", "-")] = true
		}
		for _, found := range link.FindAllStringSubmatch(page, -1) {
			if anchor, here := strings.CutPrefix(found[1], "#"); here {
				require.True(t, anchors[anchor], "%s: there is no heading %s", name, found[1])
				continue
			}
			_, err := os.Stat(filepath.Join("../..", filepath.Dir(name), found[1]))
			require.NoError(t, err, name)
		}
	}
	source := regexp.MustCompile("`((?:geo|rules|screening|cmd|testdata)/[a-z0-9_/]+\\.[a-z]+)`")
	named := source.FindAllStringSubmatch(document(t, "DEVELOPERS.md"), -1)
	require.NotEmpty(t, named)
	for _, found := range named {
		require.FileExists(t, filepath.Join("../..", found[1]))
	}
	readme := document(t, "README.md")
	for _, name := range documents[1:] {
		require.Equal(t, 1, strings.Count(readme, "]("+name+")"), name)
	}
	require.Less(t, len(readme), 15_000)
}
