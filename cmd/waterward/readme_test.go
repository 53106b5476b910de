package main

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/rules"
)

// TestTheReadmesBook: the local book that the README shows is sound as it stands.
func TestTheReadmesBook(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	found := regexp.MustCompile("(?s)```yaml\n(book: .*?)```").FindSubmatch(text)
	require.NotNil(t, found)
	book, err := rules.Load("README.md", strings.NewReader(string(found[1])))
	require.NoError(t, err)
	require.Empty(t, book.Check())
	require.Empty(t, book.Warnings())
}
