package text

import (
	"encoding/json"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// Escaped are the formatting characters of UAX #9 (table 1 and 2.7), the controls C0 and C1,
// the separators of lines, and what UTS #39 calls Default_Ignorable; letters, marks and blanks
// of any script stay.
func TestVisible(t *testing.T) {
	for _, c := range []rune{
		0x202a, 0x202b, 0x202c, 0x202d, 0x202e, 0x2066, 0x2067, 0x2068, 0x2069, 0x200e, 0x200f, 0x061c,
		0, '\t', '\n', '\r', 0x1b, 0x7f, 0x80, 0x85, 0x9b, 0x9f, 0x2028, 0x2029, 0x200b, 0x200c, 0x200d, 0xfeff, 0x2060, 0xad, 0x34f, 0x3164, 0xfe0f,
	} {
		want := `a\u` + string("0123456789abcdef"[c>>12]) + string("0123456789abcdef"[c>>8&15]) + string("0123456789abcdef"[c>>4&15]) + string("0123456789abcdef"[c&15]) + "b"
		require.Equal(t, want, Visible("a"+string(c)+"b"))
		require.Equal(t, want, Visible(want), "what is visible already")
	}
	for _, plain := range []string{"", "Reef A-1", `C:\u`, "é ñ 礁 риф شعاب", "e\u0301", "a\u00a0b\u3000", "~", "\ufffd"} {
		require.Equal(t, plain, Visible(plain))
		require.Equal(t, plain, Distinct(plain))
		require.Equal(t, plain, string(JSON([]byte(plain))))
	}
	require.Equal(t, "a\ufffdb", Visible("a\xe9b"))
	require.Equal(t, "a\\u0009\nb", Lines("a\t\nb"))
}

// Worked by hand.
func TestDistinct(t *testing.T) {
	require.Equal(t, `a\u000db`, Distinct("a\rb"))
	require.Equal(t, `a\u005cu000db`, Distinct(`a\u000db`))
	require.Equal(t, `\\u000d`, Distinct("\\\r"))
	require.Equal(t, `\\u005cu000d`, Distinct(`\\u000d`))
	require.Equal(t, `\u00\u000d`, Distinct("\\u00\r"))
}

// What is wrong with a file is named with the offset of the byte, from 0, counted by hand;
// the forms of UTF-16 are those of RFC 2781.
func TestFault(t *testing.T) {
	for text, want := range map[string]string{
		"":                 "",
		"id,é":             "",
		"id,caf\xe9\n":     "the byte at offset 6 (0xE9) is not UTF-8; save it as UTF-8",
		"é\xff":            "the byte at offset 2 (0xFF) is not UTF-8; save it as UTF-8",
		"a\xed\xa0\x80":    "the byte at offset 1 (0xED) is not UTF-8; save it as UTF-8", // a surrogate, RFC 3629, section 3
		"a\xc3":            "the byte at offset 1 (0xC3) is not UTF-8; save it as UTF-8",
		"ab\x00":           "the byte at offset 2 is NUL (0x00), which no text holds; save it as UTF-8 text",
		"ab\x00\xff":       "the byte at offset 2 is NUL (0x00), which no text holds; save it as UTF-8 text",
		"\xff\xfet\x00":    UTF16,
		"\xfe\xff\x00t":    UTF16,
		"t\x00i\x00":       UTF16,
		"\x00t\x00i":       UTF16,
		"\x00\x00\x27\x0a": "the byte at offset 0 is NUL (0x00), which no text holds; save it as UTF-8 text",
	} {
		require.Equal(t, want, Fault([]byte(text)), "%q", text)
	}
}

// FuzzDistinct: two texts never come out alike, as what comes out can be read back; it is
// visible, and in JSON the value stays.
func FuzzDistinct(f *testing.F) {
	for _, seed := range []string{"a\rb", `a\u000db`, `\\u000d`, "\\\r", `\u00` + "\r", "\U000e0001", `\udb40\udc01`, "\u202e", "=1"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if !utf8.ValidString(text) {
			return
		}
		shown := Distinct(text)
		require.Equal(t, shown, Visible(shown))
		require.Equal(t, text, readBack(shown))
		raw, err := json.Marshal(text)
		require.NoError(t, err)
		var back string
		require.NoError(t, json.Unmarshal(JSON(raw), &back))
		require.Equal(t, text, back)
	})
}

// readBack reads the escapes, of small digits, as JSON does.
func readBack(shown string) string {
	text := ""
	for len(shown) > 0 {
		n := 0
		for len(shown) >= n+6 && looksEscaped.FindStringIndex(shown[n:n+6]) != nil {
			n += 6
		}
		if n == 0 {
			text, shown = text+shown[:1], shown[1:]
			continue
		}
		var part string
		json.Unmarshal([]byte(`"`+shown[:n]+`"`), &part)
		text, shown = text+part, shown[n:]
	}
	return text
}
