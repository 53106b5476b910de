package drawing

import (
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// Advances of Helvetica and Helvetica-Bold, as Adobe published them (AFM files of the core 14
// fonts), in thousandths of the size; Arial shares them.
func TestWidth(t *testing.T) {
	for _, c := range []struct {
		text           string
		regular, heavy float64
	}{
		{"0", 556, 556}, {"9", 556, 556}, {" ", 278, 278}, {"W", 944, 944}, {"i", 222, 278}, {"m", 833, 889}, {"A", 667, 722},
		{"x", 500, 556}, {".", 278, 278}, {"-", 333, 333}, {"/", 278, 278}, {"+", 584, 584}, {"~", 584, 584},
		{"34.00 ft", 4*556 + 278 + 278 + 278 + 278, 4*556 + 278 + 278 + 333 + 333},
		{"MHW", 833 + 722 + 944, 833 + 722 + 944},
	} {
		require.InDelta(t, c.regular*0.017, Width(c.text, 17, false), 1e-9, c.text)
		require.InDelta(t, c.heavy*0.017, Width(c.text, 17, true), 1e-9, c.text)
	}
	require.Zero(t, Width("", 17, true))
}

// Letters that are not in the table are never thought narrower than they are: advances of
// Arial's AE and OE, the widest of its Latin letters (1000), of its digraphs with a caron
// (1223, 722 + 611 wide at most), of a square ideograph (1000), of an em dash (1000).
func TestWidthOfOtherLetters(t *testing.T) {
	for text, least := range map[string]float64{"Æ": 1000, "Œ": 1000, "Ǽ": 1000, "Ǆ": 1333, "É": 667, "Ŵ": 944, "¾": 834, "—": 1000, "水": 1000, "…": 1000, "™": 1000} {
		require.GreaterOrEqual(t, Width(text, 1000, false), least, text)
		require.GreaterOrEqual(t, Width(text, 1000, true), least, text)
	}
}

// Ten digits are 5.56 sizes wide and a space 0.278, by hand.
func TestWrapped(t *testing.T) {
	for _, c := range []struct {
		text string
		wide float64 // in digits
		want []string
	}{
		{"", 10, nil},
		{" \t\n ", 10, nil},
		{"1234567890", 10, []string{"1234567890"}},
		{"1234567890", 9, []string{"123456789", "0"}},
		{"1234 5678", 8.5, []string{"1234 5678"}},
		{"1234 5678", 8.4, []string{"1234", "5678"}},
		{"  1234   5678  ", 8.5, []string{"1234 5678"}},
		{"1 22222 3", 3, []string{"1", "222", "22", "3"}}, // 22 and 3 are 3.5
		{"12 345678 9", 4, []string{"12", "3456", "78 9"}},
		{"123", 1, []string{"1", "2", "3"}},
		{"123", 0.5, []string{"1", "2", "3"}},
		{"123", 0, []string{"1", "2", "3"}},
		{"水水水", 3, []string{"水", "水", "水"}},
	} {
		require.Equal(t, c.want, Wrapped(c.text, 10, false, c.wide*5.56+1e-9), "%q in %v", c.text, c.wide)
	}
}

// letters are what texts are thrown from: of one byte and of four, that join, that turn the
// direction, that are no text.
var letters = []string{"a", "W", "i", "1", "-", "/", ".", " ", "  ", "\n", "\u00a0", "\u200b", "\u2028", "\u202e", "é", "e\u0301\u0301\u0301", "水", "𒐫", "﷽", "👩‍👩‍👧", "\x00", "\xff", "\xe6\xb0", "&lt;", `"`}

func thrown(r *rand.Rand, most int) string {
	var b strings.Builder
	for range r.IntN(most) {
		b.WriteString(letters[r.IntN(len(letters))])
	}
	return b.String()
}

// Whatever the text: lines are no wider than asked but for one letter, hold every letter in
// its order, and part a word only where it is wider than a line.
func TestWrappedOfAnything(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 3000 {
		text, wide, heavy := thrown(r, 60), r.Float64()*100, r.IntN(2) == 0
		lines := Wrapped(text, 11.5, heavy, wide)
		for _, line := range lines {
			require.NotEmpty(t, line)
			if utf8.RuneCountInString(line) > 1 {
				require.LessOrEqual(t, Width(line, 11.5, heavy), wide, "%q of %q", line, text)
			}
		}
		none := func(s string) string { return strings.Join(strings.Fields(s), "") }
		require.Equal(t, none(text), none(strings.Join(lines, "")), "%q", text)
		for _, word := range strings.Fields(text) {
			if Width(word, 11.5, heavy) <= wide {
				require.True(t, strings.Contains(strings.Join(lines, "\n"), word), "%q of %q", word, text)
			}
		}
	}
}

func TestShortened(t *testing.T) {
	digits := func(n float64) float64 { return n*5.56 + 1e-9 } // dots are half as wide: three are 1.5 digits
	require.Equal(t, "12345", Shortened("12345", 10, false, digits(5)))
	require.Equal(t, "123...", Shortened("12345", 10, false, digits(4.5)))
	require.Equal(t, "12...", Shortened("12 45", 10, false, digits(4)))
	require.Equal(t, "1...", Shortened("12345", 10, false, 0))
	require.Equal(t, "", Shortened("", 10, false, 0))
	r := rand.New(rand.NewPCG(3, 4))
	for range 1000 {
		text, wide := thrown(r, 40), 40+r.Float64()*100
		short := Shortened(text, 13, true, wide)
		require.LessOrEqual(t, Width(short, 13, true), wide, "%q", text)
	}
}

// BenchmarkWrapped: a caution of 1,541 letters, the longest of the built-in books.
func BenchmarkWrapped(b *testing.B) {
	text := strings.Repeat("a limit that is read ", 74)[:1541]
	for b.Loop() {
		Wrapped(text, 11.8, true, 741)
	}
}
