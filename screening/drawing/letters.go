package drawing

import (
	"strings"
	"unicode/utf8"
)

// The letters of a sheet are Arial or what has its widths. These are its advances in
// thousandths of the size, of the characters from space to tilde, as the metric-compatible
// Liberation Sans 2 has them (its table hmtx).
var (
	regular = [95]int16{
		278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
		1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
		333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
	}
	bold = [95]int16{
		278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
		975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
		333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
	}
)

// Widths of characters that are not in the table: of Latin letters with accents, of which Æ
// and Œ are the widest, no more than that, and of others, from ideographs to digraphs with an
// accent, no more than this, but for signs that stand for whole sentences.
const (
	accented = 1000
	other    = 1350
	// firstOther follows the blocks Latin-1 and Latin Extended-A of Unicode.
	firstOther = 0x180
)

// Width is how wide a text is in letters of a size, at most.
func Width(text string, size float64, heavy bool) float64 {
	of := &regular
	if heavy {
		of = &bold
	}
	sum := 0
	for _, r := range text {
		switch {
		case r >= ' ' && r <= '~':
			sum += int(of[r-' '])
		case r < firstOther:
			sum += accented
		default:
			sum += other
		}
	}
	return float64(sum) * size / 1000
}

// Wrapped breaks a text into lines no wider than so much, between words, and within a word
// only where it is wider than a line by itself.
func Wrapped(text string, size float64, heavy bool, wide float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		switch joined := line + " " + word; {
		case line == "":
			line = word
		case Width(joined, size, heavy) <= wide:
			line = joined
		default:
			lines, line = append(lines, line), word
		}
		for Width(line, size, heavy) > wide {
			head, tail := cut(line, size, heavy, wide)
			if tail == "" {
				break
			}
			lines, line = append(lines, head), tail
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// cut parts a word where a line is full; at least one character stays.
func cut(word string, size float64, heavy bool, wide float64) (head, tail string) {
	end := 0
	for end < len(word) {
		_, n := utf8.DecodeRuneInString(word[end:])
		if end > 0 && Width(word[:end+n], size, heavy) > wide {
			break
		}
		end += n
	}
	return word[:end], word[end:]
}

// Shortened keeps what of a text is no wider than so much, with dots for the rest.
func Shortened(text string, size float64, heavy bool, wide float64) string {
	if Width(text, size, heavy) <= wide {
		return text
	}
	runes := []rune(text)
	for len(runes) > 1 && Width(string(runes)+"...", size, heavy) > wide {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimSpace(string(runes)) + "..."
}
