package geojson

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// bounded reads a text by a reader that holds no more than so many bytes of it at
// once, and returns how many features came and what ended it.
func bounded(t *testing.T, most int, text io.Reader) (int, error) {
	r, err := NewReader("in.geojson", text)
	require.NoError(t, err)
	r.scan.most = most
	for n := 0; ; n++ {
		if _, err := r.Next(); err != nil {
			require.LessOrEqual(t, len(r.scan.tape), most)
			return n, err
		}
	}
}

// endless is a text over and over again, for ever.
type endless struct {
	text string
	at   int
}

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = e.text[e.at%len(e.text)]
		e.at++
	}
	return len(p), nil
}

// TestWhatNeverEnds is refused where it outgrows what can be held, wherever in a
// file it begins.
func TestWhatNeverEnds(t *testing.T) {
	const most = 1 << 16
	for _, c := range [][2]string{
		{`{"features":[` + feature(point) + `,{"a":"`, "x"},
		{`{"features":[` + feature(point) + `,`, "1"},
		{`{"features":[` + feature(point) + `,[[`, "["},
		{`{"features":[` + feature(point) + `],"a":[`, "1,"},
		{`{"features":[` + feature(point) + `],`, `"a":123456789,`},
		{`{"features":[` + feature(point) + `],"a":1,`, `"b":{},`},
		{feature(point) + `{`, " "},
		{feature(point) + `{"`, "k"},
		{feature(point) + `{"a":1,`, `"b":[1,2,3],`},
		{feature(point) + `{"a" `, "\n"},
		{"\x1e" + feature(point) + "\n\x1e{\"a\":\"", "x"},
		{feature(point), `{"features":[],"a":123456789}`},
		{feature(point), `{"a":123456789,"features":[]}`},
	} {
		begins, goesOn := c[0], c[1]
		n, err := bounded(t, most, io.MultiReader(strings.NewReader(begins), &endless{text: goesOn}))
		var file *FileError
		require.ErrorAs(t, err, &file, begins)
		require.Equal(t, 1, n, begins)
		require.Contains(t, err.Error(), "in.geojson: ")
		require.Contains(t, err.Error(), "what follows feature 1 is longer than", begins)
	}
	// What ends just in time is read.
	whole := feature(point)
	n, err := bounded(t, len(whole), strings.NewReader(`{"features":[`+whole+`,`+whole+`]}`))
	require.Equal(t, io.EOF, err)
	require.Equal(t, 2, n)
	n, err = bounded(t, len(whole)-1, strings.NewReader(`{"features":[`+whole+`,`+whole+`]}`))
	require.ErrorContains(t, err, "what follows feature 0 is longer than")
	require.Equal(t, 0, n)
}

// TestOutsizeParts of a feature cost that feature alone, with a reason; what is
// written of it again is JSON.
func TestOutsizeParts(t *testing.T) {
	deep := strings.Repeat("[", deepest) + strings.Repeat("]", deepest)
	many := strings.Repeat(`"a":1,`, mostMembers) + `"a":1`
	long := strings.Repeat("x", LongestText+1)
	for text, wrong := range map[string]string{
		`{"type":"Feature","properties":{"a":` + deep + `},"geometry":` + point + `}`:          "its brackets stand 10002 deep within one another",
		`{"type":"Feature","properties":{` + many + `},"geometry":` + point + `}`:              "its properties are an object of more than 1000000 members",
		`{"type":"Feature","properties":{},"geometry":{"type":"Point",` + many + `}}`:          "its geometry is an object of more than 1000000 members",
		`{"type":"Feature","properties":{"id":"` + long + `"},"geometry":` + point + `}`:       "its id is 10001 bytes long",
		`{"type":"Feature","id":"` + long + `","properties":{},"geometry":` + point + `}`:      "its id is 10001 bytes long",
		`{"type":"Feature","properties":{"` + long + `":1},"geometry":` + point + `}`:          "its properties are an object with a name of more than 10000 bytes",
		feature(`{"type":"Point","coordinates":[1e999999999,27]}`):                             `position 1 holds "1e999999999", which is not a finite number`,
		feature(`{"type":"Point","coordinates":[-82.5,` + strings.Repeat("9", 100_000) + `]}`): `position 1 holds "99999999999999999999", which is not a finite number`,
	} {
		all, _, err := readAll(`{"features":[` + text + `,` + feature(point) + `]}`)
		require.NoError(t, err)
		require.Len(t, all, 2)
		require.Nil(t, all[1].Err)
		require.ErrorContains(t, all[0].Err, wrong)
		require.Less(t, len(all[0].Err.Error()), 300)
		require.True(t, json.Valid(annotated(all[0], ours)), wrong)
	}
}

// TestIdsInMessages: an id may hold anything; a message stays one line in the order
// in which it is read, and shows no more of the id than tells it.
func TestIdsInMessages(t *testing.T) {
	for id, want := range map[string]string{
		"\x1b[2J\x07\r\nall is well\x00": `(id \u001b[2J\u0007\u000d\u000aall is well\u0000)`,
		"a\u202eb\u2066c\u200fd":         `(id a\u202eb\u2066c\u200fd)`,
		"\u009b31m\x7f":                  `(id \u009b31m\u007f)`,
		strings.Repeat("é", 61):          "(id " + strings.Repeat("é", 60) + "...)",
	} {
		err := &FeatureError{File: "f", Number: 1, ID: id, Wrong: "w", Remedy: "r"}
		require.Equal(t, "f: feature 1 "+want+": w; r", err.Error())
	}
}

// TestTooManyUnusable: each feature that cannot be used is kept to be named, so
// there is an end to them.
func TestTooManyUnusable(t *testing.T) {
	for goesOn, wrong := range map[string]string{
		",1":    "it is not a JSON object",
		"\x1e{": "its text ends in the middle",
	} {
		begins := ""
		if goesOn == ",1" {
			begins = `{"features":[1`
		}
		r, err := NewReader("in.geojson", io.MultiReader(strings.NewReader(begins), &endless{text: goesOn}))
		require.NoError(t, err)
		n := 0
		for ; err == nil; n++ {
			_, err = r.Next()
		}
		require.Equal(t, mostUnusable+1, n)
		require.EqualError(t, err, "in.geojson: more than 1000000 of its features cannot be used, such as feature 1000001: "+wrong)
	}
}

// TestGzipMembers: members on end are one text (RFC 1952, section 2.2); anything
// else behind them is a fault, as is a text that does not match its sum.
func TestGzipMembers(t *testing.T) {
	pack := func(text string) string {
		var b bytes.Buffer
		w := gzip.NewWriter(&b)
		w.Write([]byte(text))
		w.Close()
		return b.String()
	}
	whole := `{"features":[` + feature(point) + `]}`
	all, _, err := readAll(pack(whole[:20]) + pack("") + pack(whole[20:]))
	require.NoError(t, err)
	require.Len(t, all, 1)
	packed := pack(whole)
	damaged := []byte(packed)
	damaged[len(damaged)-5] ^= 1 // in the sum of the text
	for _, text := range []string{packed + "behind it there is more", packed + strings.Repeat("\x00", 512), string(damaged)} {
		_, _, err := readAll(text)
		require.ErrorContains(t, err, "in.geojson: cannot be read: gzip: invalid")
		require.ErrorContains(t, err, "get it again")
	}
}

// TestUTF16 is said to be so, with or without a byte order mark.
func TestUTF16(t *testing.T) {
	little := func(text string) (out string) {
		for _, c := range text {
			out += fmt.Sprintf("%c\x00", c)
		}
		return out
	}
	text := little(feature(point))
	for _, file := range []string{"\xff\xfe" + text, text, "\xfe\xff\x00" + text, "\x00" + text} {
		_, _, err := readAll(file)
		require.ErrorContains(t, err, "its text is UTF-16; save it as UTF-8")
	}
}
