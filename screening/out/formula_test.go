package out

import (
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What a spreadsheet would run is made harmless, by the lists of OWASP, CSV Injection (= + - @,
// tab, carriage return, line feed, their full-width forms, and each of them behind a
// separator of cells) and of its Application Security Verification Standard 5.0, 1.2.10 (NUL);
// the apostrophe is CWE-1236's. Numbers stay numbers.
func TestFormulas(t *testing.T) {
	for text, want := range map[string]string{
		"=1+1": "'=1+1", "+a": "'+a", "-a": "'-a", "@x": "'@x", "-2+3": "'-2+3",
		"＝1+1": "'＝1+1", "＋a": "'＋a", "－a": "'－a", "＠x": "'＠x", "﹦1": "'﹦1",
		" =1": "' =1", "\u00a0=1": "'\u00a0=1", "\u3000＝1": "'\u3000＝1",
		"\u200b=1": `\u200b=1`, "\t=1": `\u0009=1`, "\r=1": `\u000d=1`, "\n=1": `\u000a=1`, "\x00=1": `\u0000=1`, "\ufeff=1": `\ufeff=1`,
		"a;=1": "a;'=1", "a; =1": "a; '=1", "a;b": "a;b", "a; -2; 3": "a; -2; 3", "a;'=1": "a;''=1",
		"-2": "-2", "+1e3": "+1e3", "-.5": "-.5", "-1.": "-1.", " -2": " -2", "-inf": "'-inf", "-0x1": "'-0x1", "－2": "'－2",
		"'=1": "''=1", "'a": "'a", "a=1": "a=1", "": "", "'": "'", ";": ";",
	} {
		require.Equal(t, want, Text(text).Table, "%q", text)
	}
}

// Ids that differ differ in a table, read back by any reader of RFC 4180; worked by hand.
func TestIdsStayApart(t *testing.T) {
	ids := []string{
		"a\rb", "ab", `a\u000db`, `a\u005cu000db`, "a\nb", "a\r\nb", `a\\u000db`, `a\` + "\r" + "b", `a\u000Db`,
		"a", " a", "a ", "\ta", "a\u200b", "\u202ea", "a\u00a0", "a\ufeff", `"a"`, "a,b", "a;b", "a\x00", "a\u2028", "a\U000e0001", `a\udb40\udc01`, "a\ufe0f",
		"=a", "'=a", "''=a", " =a", "' =a", "-2", "'-2", "a;=1", "a;'=1", "a; =1", "a; '=1", "=;=", "'=;=", "=;'=",
	}
	to := &kept{}
	for _, filled := range []bool{false, true} {
		to.Reset()
		sinks, err := Open(to, &Table[string]{Name: "t.csv", Header: []string{"id"}, Filled: filled, Of: func(id string) [][]string { return [][]string{{ID(id).Table}} }})
		require.NoError(t, err)
		for _, id := range ids {
			require.NoError(t, sinks.Prepare(id)())
		}
		require.NoError(t, sinks.Finish())
		rows, err := csv.NewReader(strings.NewReader(to.String())).ReadAll()
		require.NoError(t, err)
		require.Len(t, rows, len(ids)+1)
		from := map[string]string{}
		for i, row := range rows[1:] {
			require.Empty(t, from[row[0]], "%q and %q", from[row[0]], ids[i])
			from[row[0]] = ids[i]
		}
		require.Equal(t, `a\u000db`, rows[1][0])
		require.Equal(t, `a\u005cu000db`, rows[3][0])
		require.Equal(t, " a", rows[11][0])
		require.Equal(t, "a ", rows[12][0])
	}
}

// In JSON the value stays, and the text shows what is hidden in it.
func TestHiddenInJSON(t *testing.T) {
	const id = "a\u202eb\u200b\u007f\U000e0001é"
	raw := ID(id).JSON
	require.Equal(t, `"a\u202eb\u200b\u007f\udb40\udc01é"`, string(raw))
	var back string
	require.NoError(t, json.Unmarshal(raw, &back))
	require.Equal(t, id, back)
	require.Equal(t, `["a\u2066"]`, string(List([]string{"a\u2066"}).JSON))
}
