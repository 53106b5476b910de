package rules

import "fmt"

// mostSuggested keeps a book with thousands of paths from making an error of
// every name times every name.
const mostSuggested = 100

// suggest says what to write instead of a word that is not known: the nearest
// known one, or all of them if none is near.
func suggest(word string, known []string) string {
	if near := Nearest(word, known); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	return "write one of " + list(known[:min(len(known), mostSuggested)])
}

// Nearest is the known name that a word was most likely meant to be, by how many letters
// differ, whatever the case; empty if none is near.
func Nearest(word string, known []string) string {
	best, least := "", len(word)
	for _, k := range known[:min(len(known), mostSuggested)] {
		if d := edits(plain(word), plain(k)); d < least {
			best, least = k, d
		}
	}
	if least > max(2, len(word)/3) {
		return ""
	}
	return best
}

// edits is the Levenshtein distance in bytes. A word far longer than any known
// one is not worth comparing.
func edits(a, b string) int {
	if len(a) > 2*len(b)+8 {
		return len(a)
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			substituted := diagonal
			if a[i] != b[j] {
				substituted++
			}
			diagonal = row[j+1]
			row[j+1] = min(substituted, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
