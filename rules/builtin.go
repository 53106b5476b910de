package rules

import (
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"strings"
)

//go:embed books/*.yaml
var builtIn embed.FS

const (
	booksDir = "books"
	bookExt  = ".yaml"
)

// BuiltInNames returns the names of the built-in books, sorted.
func BuiltInNames() []string {
	// The pattern is constant and well formed, the only thing Glob can fault.
	paths, _ := fs.Glob(builtIn, booksDir+"/*"+bookExt)
	names := make([]string, 0, len(paths))
	for _, path := range paths {
		names = append(names, strings.TrimSuffix(strings.TrimPrefix(path, booksDir+"/"), bookExt))
	}
	slices.Sort(names)
	return names
}

// IsFile reports whether the name of a book is that of a file: it has a dot or a
// slash, which no built-in book's has.
func IsFile(name string) bool { return strings.ContainsAny(name, "./\\") }

// BuiltIn returns the built-in book of that name, read anew each time.
func BuiltIn(name string) (*Book, error) {
	file, err := builtIn.Open(booksDir + "/" + name + bookExt)
	if err != nil {
		return nil, fmt.Errorf("no built-in book %q: %s", name, suggest(name, BuiltInNames()))
	}
	defer file.Close()
	return Load(name+bookExt, file)
}
