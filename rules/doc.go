// Package rules holds what is allowed: measures as names and units, rule books
// and their criteria, and the decision a book takes on one proposal.
//
// A [Book] belongs to one authority and lists its paths from the least to the
// most demanding; the last one has no criteria and always holds. [Book.Decide]
// asks a [Facts] for every measure the book names and answers with the path,
// how surely it holds, what kept the proposal off the easier paths, and the
// smallest change that would change each of those.
//
// The package knows no geometry and opens no file: books come through an
// [io.Reader] ([Load]) or are built in ([BuiltIn]). Inside, every quantity is in
// metres, square metres, cubic metres, or their quotients; units appear only
// where a book is read and where a sentence is written.
package rules
