package geojson

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var ours = []Member{{Key: "path", Raw: json.RawMessage(`"exempt"`)}, {Key: "reach_ft", Raw: json.RawMessage(`9.50`)}}

const oursText = `"path":"exempt","reach_ft":9.50`

func annotated(f *Feature, added []Member) []byte {
	text, _ := f.Annotated(added)
	return text
}

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
				got := annotated(one(t, packed), ours)
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
		require.Equal(t, text, string(annotated(one(t, text), nil)))
	}
}

func TestAnnotatedWithoutProperties(t *testing.T) {
	got := annotated(one(t, `{"type":"Feature","geometry":`+point+` }`), ours)
	require.Equal(t, `{"type":"Feature","geometry":`+point+` ,"properties":{`+oursText+`}}`, string(got))
	for _, bare := range []string{`{}`, `{ }`} {
		got = annotated(one(t, `{"type":"FeatureCollection","features":[`+bare+`]}`), ours)
		require.True(t, json.Valid(got), "%s", got)
		require.Contains(t, string(got), oursText)
	}
}

// TestAnnotatedSameNames: a property of theirs with a name of ours, in any case, is kept
// where it stood under another name that nothing else has. Worked by hand; K is the Kelvin
// sign, which differs from k in nothing but its case (Unicode CaseFolding.txt: 212A; C; 006B).
func TestAnnotatedSameNames(t *testing.T) {
	for properties, c := range map[string]struct {
		want    string
		renamed []string
	}{
		`{"b":1.50,"path":"old","a":[1, 2],"c":"\u00e9"}`:         {`{"b":1.50,"path_given":"old","a":[1, 2],"c":"\u00e9",` + oursText + `}`, []string{"path"}},
		`{ "PATH" : "old" , "PATH_GIVEN":1 }`:                     {`{ "PATH_given_2" : "old" , "PATH_GIVEN":1,` + oursText + ` }`, []string{"PATH"}},
		`{"p\u0061th":1,"Reach_ft":2,"path_given_2":3}`:           {`{"p\u0061th_given":1,"Reach_ft_given":2,"path_given_2":3,` + oursText + `}`, []string{"path", "Reach_ft"}},
		`{"Path":1,"pAth":2,"path_given":3}`:                      {`{"Path_given_2":1,"pAth_given_3":2,"path_given":3,` + oursText + `}`, []string{"Path", "pAth"}},
		`{"paths":1,"xpath":2,"properties":{"path":3},"pa th":4}`: {`{"paths":1,"xpath":2,"properties":{"path":3},"pa th":4,` + oursText + `}`, nil},
	} {
		text, renamed := one(t, `{"type":"Feature","properties":`+properties+`,"geometry":`+point+`}`).Annotated(ours)
		require.Equal(t, `{"type":"Feature","properties":`+c.want+`,"geometry":`+point+`}`, string(text))
		require.Equal(t, c.renamed, renamed)
	}
	kelvin := []Member{{Key: "peak", Raw: json.RawMessage(`1`)}}
	text, _ := one(t, "{\"type\":\"Feature\",\"properties\":{\"PEA\u212a\":2},\"geometry\":null}").Annotated(kelvin)
	require.Equal(t, "{\"type\":\"Feature\",\"properties\":{\"PEA\u212a_given\":2,\"peak\":1},\"geometry\":null}", string(text))
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
		got := annotated(one(t, `{"type":"FeatureCollection","features":[`+text+`]}`), ours)
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
		require.NotPanics(t, func() { got = annotated(one(t, text), ours) }, text)
		require.True(t, json.Valid(got), "%s", got)
		var back struct{ Properties map[string]any }
		require.NoError(t, json.Unmarshal(got, &back))
		require.Equal(t, "exempt", back.Properties["path"])
	}
	twice := one(t, `{"type":"Feature","properties":{"width_ft":1,"width_ft":6},"geometry":null}`)
	require.Error(t, twice.Err)
	require.Contains(t, twice.Err.Wrong, "twice")
}

// Worked by hand: names of an input give way to ours, in any case, and to no other of their own.
func TestNamesBesideOurs(t *testing.T) {
	require.Equal(t, []string{"NOTE_given_2", "note_given", "zip"}, Besides([]string{"NOTE", "note_given", "zip"}, []string{"parcel_id", "note"}))
	require.Empty(t, Besides(nil, []string{"note"}))
}
