package geojson

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var ours = []Member{{Key: "path", Raw: json.RawMessage(`"exempt"`)}, {Key: "reach_ft", Raw: json.RawMessage(`9.50`)}}

const oursText = `"path":"exempt","reach_ft":9.50`

// TestAnnotatedKeepsEveryOtherByte: ids beyond 2^53, number text, order, foreign
// members, heights, escapes and odd white space come back as they were read.
func TestAnnotatedKeepsEveryOtherByte(t *testing.T) {
	for name, c := range map[string]struct{ before, properties, after, want string }{
		"plain":           {`{"type":"Feature","properties":`, `{"a":1.50}`, `,"geometry":` + point + `}`, `{"a":1.50,` + oursText + `}`},
		"null":            {`{"type":"Feature","properties":`, `null`, `,"geometry":` + point + `}`, `{` + oursText + `}`},
		"empty":           {`{"type":"Feature","properties":`, `{}`, `,"geometry":` + point + `}`, `{` + oursText + `}`},
		"empty, spaced":   {`{"type":"Feature","properties":`, `{ }`, `,"geometry":` + point + `}`, `{` + oursText + `}`},
		"a large id":      {`{"id":9007199254740993,"type":"Feature","properties":`, `{"n":123456789012345678901234567890}`, `,"geometry":` + point + `}`, `{"n":123456789012345678901234567890,` + oursText + `}`},
		"heights":         {`{"geometry":{"type":"Point","coordinates":[-82.5000,27.50,-1.20]},"properties":`, `{"z":1e3}`, `,"type":"Feature"}`, `{"z":1e3,` + oursText + `}`},
		"foreign members": {`{"style":{"properties":{"x":1}},"type":"Feature","properties":`, `{"s":"a \"}{\u00e9\\"}`, `,"geometry":` + point + `,"tail":[1, 2 ,{}]}`, `{"s":"a \"}{\u00e9\\",` + oursText + `}`},
		"white space":     {"{ \"type\" :\t\"Feature\" ,\r\n \"properties\" : ", "{ \"b\" : 2 ,\n\"a\" : [ 1 , { } ] \n }", " ,\n\"geometry\" : " + point + "\n}", "{ \"b\" : 2 ,\n\"a\" : [ 1 , { } ]," + oursText + " \n }"},
		"nested":          {`{"type":"Feature","properties":`, `{"properties":{"path":"x"}}`, `,"geometry":` + point + `}`, `{"properties":{"path":"x"},` + oursText + `}`},
		"unusable":        {`{"type":"Feature","properties":`, `{"a":1}`, `,"geometry":null}`, `{"a":1,` + oursText + `}`},
		"an escaped name": {`{"type":"Feature","propert\u0069es":`, `{"a":1}`, `,"geometry":null}`, `{"a":1,` + oursText + `}`},
	} {
		t.Run(name, func(t *testing.T) {
			text := c.before + c.properties + c.after
			for _, packed := range []string{text, `{"type":"FeatureCollection","features":[` + text + `]}`, "\x1e" + text + "\n"} {
				got := one(t, packed).Annotated(ours)
				require.Equal(t, c.before+c.want+c.after, string(got))
				require.True(t, json.Valid(got))
			}
		})
	}
}

// TestAnnotatedWithNothing gives a feature back as it was read.
func TestAnnotatedWithNothing(t *testing.T) {
	for _, text := range []string{
		`{"id":9007199254740993,"type":"Feature","properties":{ "n" : 1.50 , "s":"\u00e9" },"geometry":` + point + `,"tail":1e3}`,
		`{"type":"Feature","properties":null,"geometry":null}`,
	} {
		require.Equal(t, text, string(one(t, text).Annotated(nil)))
	}
}

func TestAnnotatedWithoutProperties(t *testing.T) {
	got := one(t, `{"type":"Feature","geometry":`+point+` }`).Annotated(ours)
	require.Equal(t, `{"type":"Feature","geometry":`+point+` ,"properties":{`+oursText+`}}`, string(got))
	for _, bare := range []string{`{}`, `{ }`} {
		got = one(t, `{"type":"FeatureCollection","features":[`+bare+`]}`).Annotated(ours)
		require.True(t, json.Valid(got), "%s", got)
		require.Contains(t, string(got), oursText)
	}
}

// TestAnnotatedSameNames: ours take the place of theirs; the others keep their
// values as they were written, and their order.
func TestAnnotatedSameNames(t *testing.T) {
	got := one(t, `{"type":"Feature","properties":{"b":1.50,"path":"old","a":[1, 2],"p\u0061th":"older","c":"\u00e9"},"geometry":null}`).Annotated(ours)
	require.Equal(t, `{"type":"Feature","properties":{"b":1.50,"a":[1, 2],"c":"\u00e9",`+oursText+`},"geometry":null}`, string(got))
	got = one(t, `{"type":"Feature","properties":{"path":"old"},"geometry":null}`).Annotated(ours)
	require.Equal(t, `{"type":"Feature","properties":{`+oursText+`},"geometry":null}`, string(got))
	// Annotated twice is annotated once.
	again := one(t, string(got)).Annotated(ours)
	require.Equal(t, string(got), string(again))
}

// TestAnnotatedOddInput: a feature that cannot be read keeps its text, and names
// that stand twice are refused (RFC 8259, section 4: readers differ on which of
// them counts) and do not break what is written.
func TestAnnotatedOddInput(t *testing.T) {
	for _, text := range []string{
		`{"type":"Feature","properties":{"a":NaN},"geometry":null}`,
		`{"type":"Feature","properties":{"a":"` + "\xff" + `"},"geometry":null,}`,
		`"text"`, `7`, `null`,
	} {
		got := one(t, `{"type":"FeatureCollection","features":[`+text+`]}`).Annotated(ours)
		require.True(t, json.Valid(got), "%s", got)
		var back struct {
			Type       string
			Properties map[string]any
		}
		require.NoError(t, json.Unmarshal(got, &back))
		require.Equal(t, "Feature", back.Type)
		require.Equal(t, "exempt", back.Properties["path"])
		if back.Properties["unreadable_text"] != nil {
			require.Equal(t, strings.ToValidUTF8(text, "\ufffd"), back.Properties["unreadable_text"])
		}
	}
	for _, text := range []string{
		`{"type":"Feature","properties":{},"geometry":null,"properties":{"a":1,"long":"text"}}`,
		`{"type":"Feature","properties":{"a":1,"long":"text"},"geometry":null,"properties":null}`,
	} {
		var got []byte
		require.NotPanics(t, func() { got = one(t, text).Annotated(ours) }, text)
		require.True(t, json.Valid(got), "%s", got)
		var back struct{ Properties map[string]any }
		require.NoError(t, json.Unmarshal(got, &back))
		require.Equal(t, "exempt", back.Properties["path"])
	}
	twice := one(t, `{"type":"Feature","properties":{"width_ft":1,"width_ft":6},"geometry":null}`)
	require.Error(t, twice.Err)
	require.Contains(t, twice.Err.Wrong, "twice")
}
