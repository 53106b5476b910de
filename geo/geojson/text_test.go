package geojson

import (
	"bytes"
	"compress/gzip"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// latin1 is the é of ISO 8859-1, which is no character of UTF-8 before a quote (RFC 3629).
const latin1 = "caf\xe9"

func packed(t *testing.T, text string) string {
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	_, err := w.Write([]byte(text))
	require.NoError(t, err)
	require.NoError(t, w.Close())
	return b.String()
}

// What stands beside the features and is not UTF-8 ends the file, at the byte where it is
// (RFC 8259, section 8.1: JSON is UTF-8), counted by Index in the text as it was made.
func TestMembersThatAreNotUTF8(t *testing.T) {
	long := strings.Repeat(feature(point)+",", 3000) // beyond one window
	for name, text := range map[string]string{
		"ahead":              `{"type":"FeatureCollection","name":"` + latin1 + `","features":[` + feature(point) + `]}`,
		"ahead, in an inner": `{"a":{"b":["` + latin1 + `"]},"features":[]}`,
		"a name ahead":       `{"` + latin1 + `":1,"features":[]}`,
		"behind":             `{"type":"FeatureCollection","features":[` + feature(point) + `],"name":"` + latin1 + `"}`,
		"a name behind":      `{"features":[` + feature(point) + `], "x":1, "` + latin1 + `" : 1}`,
		"behind many":        `{"features":[` + long + feature(point) + `],"name":"` + latin1 + `"}`,
		"a mark before":      "\xef\xbb\xbf" + `{"name":"` + latin1 + `","features":[]}`,
		"of a sequence":      "\x1e" + `{"features":[` + feature(point) + `],"name":"` + latin1 + `"}` + "\n",
		"of the second":      `{"features":[` + feature(point) + `]}` + "\n" + `{"name":"` + latin1 + `","features":[]}`,
	} {
		for _, given := range []string{text, packed(t, text)} {
			_, _, err := readAll(given)
			var file *FileError
			require.ErrorAs(t, err, &file, name)
			require.Contains(t, err.Error(), "save the file as UTF-8", name)
			require.Contains(t, err.Error(), offsetText(strings.Index(text, "\xe9")), name)
		}
	}
}

func offsetText(n int) string {
	digits := []byte{}
	for ; n > 0 || len(digits) == 0; n /= 10 {
		digits = append([]byte{byte('0' + n%10)}, digits...)
	}
	return "the byte at offset " + string(digits) + " (0xE9) is not UTF-8"
}

// Names beside the features are kept as they were written.
func TestNamesBesideTheFeatures(t *testing.T) {
	_, r, err := readAll(`{"caf\u00e9 <\ud800>":1,"features":[` + feature(point) + `],"b\/c" : 2}`)
	require.NoError(t, err)
	require.Equal(t, `"caf\u00e9 <\ud800>"`, string(r.Before()[0].Name()))
	require.Equal(t, `"b\/c"`, string(r.After()[0].Name()))
}

// A feature that is not UTF-8 is one that cannot be used, wherever in it the byte stands, and
// says at which byte of the file.
func TestFeaturesThatAreNotUTF8(t *testing.T) {
	for _, bad := range []string{
		`{"type":"Feature","properties":{"a":"` + latin1 + `"},"geometry":` + point + `}`,
		`{"type":"Feature","properties":{"` + latin1 + `":1},"geometry":` + point + `}`,
		`{"type":"Feature","style":{"a":"` + latin1 + `"},"properties":null,"geometry":` + point + `}`,
		`{"type":"Feature","properties":null,"geometry":` + point + `,"` + latin1 + `":1}`,
		`{"type":"Feature","id":"` + latin1 + `","properties":null,"geometry":` + point + `}`,
	} {
		for _, text := range []string{
			`{"features":[` + feature(point) + `, ` + bad + `,` + feature(point) + `]}`,
			feature(point) + "\n" + bad + "\n" + feature(point),
			"\x1e" + feature(point) + "\n\x1e" + bad + "\n\x1e" + feature(point),
		} {
			for _, given := range []string{text, packed(t, text)} {
				all, _, err := readAll(given)
				require.NoError(t, err, text)
				require.Len(t, all, 3)
				require.NotNil(t, all[1].Err)
				require.Contains(t, all[1].Err.Error(), offsetText(strings.Index(text, "\xe9")))
				require.True(t, utf8.Valid(annotated(all[1], ours)))
			}
		}
	}
}

// NUL is no character of JSON (RFC 8259, section 7).
func TestNUL(t *testing.T) {
	all, _, err := readAll(`{"features":[` + strings.Replace(feature(point), `"type"`, "\"a\x00\":1,\"type\"", 1) + `]}`)
	require.NoError(t, err)
	require.Contains(t, all[0].Err.Wrong, "NUL")
}

// An id with half of a surrogate pair could be read as another's (RFC 8259, section 8.2); a
// whole pair is one character, and an escaped backslash begins no escape.
func TestHalvedIds(t *testing.T) {
	for id, half := range map[string]bool{
		`"\ud800"`: true, `"a\uDC00b"`: true, `"\ud83d\ud83d\ude00"`: true, `"\ud83d\n"`: true, `"\ud83d"`: true,
		`"\ud83d\ude00"`: false, `"\\ud800"`: false, `"\ufffd"`: false, `"\\\\ud800"`: false, `"\u00e9"`: false, `7`: false,
	} {
		for _, text := range []string{
			`{"type":"Feature","id":` + id + `,"properties":null,"geometry":` + point + `}`,
			`{"type":"Feature","properties":{"id":` + id + `},"geometry":` + point + `}`,
		} {
			f := one(t, text)
			require.Equal(t, half, f.Err != nil, text)
			if half {
				require.Contains(t, f.Err.Wrong, "half of a character")
			}
			require.True(t, utf8.Valid(annotated(f, ours)))
		}
	}
}
