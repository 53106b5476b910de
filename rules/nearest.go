package rules

import "fmt"

// mostSuggested keeps a book with thousands of paths from making an error of
// every name times every name.
const mostSuggested = 100

// suggest says what to write instead of a word that is not known: the nearest
// known one, or all of them if none is near.
func suggest(word string, known []string) string {
	known = known[:min(len(known), mostSuggested)]
	best, least := "", len(word)
	for _, k := range known {
		if d := edits(plain(word), k); d < least {
			best, least = k, d
		}
	}
	if best != "" && least <= max(2, len(word)/3) {
		return fmt.Sprintf("did you mean %q?", best)
	}
	return "write one of " + list(known)
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
