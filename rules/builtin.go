package rules

import (
	"embed"
	"fmt"
	"strings"
)

//go:embed books/*/*.yaml
var builtIn embed.FS

// Guide is the page on rule books, as markdown.
//
//go:embed books/README.md
var Guide string

const (
	booksDir = "books"
	bookExt  = ".yaml"
)

// BuiltInNames returns the names of the built-in books, sorted.
func BuiltInNames() []string {
	// The directory is embedded, so reading it cannot fail.
	folders, _ := builtIn.ReadDir(booksDir)
	names := make([]string, 0, len(folders))
	for _, folder := range folders {
		names = append(names, folder.Name())
	}
	return names
}

// IsFile reports whether the name of a book is that of a file: it has a dot or a
// slash, which no built-in book's has.
func IsFile(name string) bool { return strings.ContainsAny(name, "./\\") }

// BuiltIn returns the editions of the built-in book of that name, read anew each
// time.
func BuiltIn(name string) (Editions, error) {
	files, err := builtIn.ReadDir(booksDir + "/" + name)
	if err != nil || name == "" {
		return nil, fmt.Errorf("no built-in book %q: %s", name, suggest(name, BuiltInNames()))
	}
	var books []*Book
	for _, file := range files {
		book, err := readBuiltIn(name + "/" + file.Name())
		if err != nil {
			return nil, err
		}
		books = append(books, book)
	}
	editions, err := Gather(books)
	if err != nil {
		return nil, err
	}
	return editions[0], nil
}

func readBuiltIn(path string) (*Book, error) {
	file, err := builtIn.Open(booksDir + "/" + path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	book, err := Load(path, file)
	if err == nil {
		book.builtIn = true
	}
	return book, err
}
