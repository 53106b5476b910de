package out

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// kept keeps one file; full cannot be written.
type kept struct{ bytes.Buffer }

func (k *kept) Create(string) (io.WriteCloser, error) { return k, nil }
func (k *kept) Close() error                          { return nil }

type full struct{}

func (full) Create(string) (io.WriteCloser, error) { return full{}, nil }
func (full) Write([]byte) (int, error)             { return 0, errors.New("full") }
func (full) Close() error                          { return nil }

func rowsOf(text string) [][]string {
	var rows [][]string
	for line := range strings.FieldsSeq(text) {
		rows = append(rows, strings.Split(line, ","))
	}
	return rows
}

// A table of filled columns leaves out those in which every row is empty; without a row
// its header is whole. Worked by hand, lines ended as RFC 4180 has them.
func TestTables(t *testing.T) {
	for _, c := range []struct {
		filled     bool
		rows, want string
	}{
		{false, "1,,3 2,,", "a,b,c\r\n1,,3\r\n2,,\r\n"},
		{true, "1,,3 2,,", "a,c\r\n1,3\r\n2,\r\n"},
		{true, ",2,3", "b,c\r\n2,3\r\n"},
		{true, "", "a,b,c\r\n"},
	} {
		to := &kept{}
		sinks, err := Open(to, &Table[string]{Name: "t.csv", Header: []string{"a", "b", "c"}, Of: rowsOf, Filled: c.filled})
		require.NoError(t, err)
		require.NoError(t, sinks.Prepare(c.rows)())
		require.NoError(t, sinks.Finish())
		require.Equal(t, c.want, to.String())
		require.Equal(t, int64(len(c.want)), sinks.Records()[0].Bytes)
	}
}

// The first fault of any file ends a run.
func TestFaultsOfWriting(t *testing.T) {
	sinks, err := Open(full{}, &Collection[string]{Name: "c.geojson", Of: func(s string) [][]byte { return [][]byte{[]byte(s)} }})
	require.NoError(t, err)
	require.EqualError(t, sinks.Prepare("{}")(), "full")
	require.EqualError(t, sinks.Finish(), "full")
}

// What a spreadsheet would run as a formula is made harmless; numbers stay numbers (CWE-1236).
func TestCells(t *testing.T) {
	for text, want := range map[string]string{"=1+1": "'=1+1", "-2": "-2", "-a": "'-a", "a": "a", "": "", "@x": "'@x", "+1e3": "+1e3"} {
		require.Equal(t, want, Text(text).Table, text)
	}
	require.Equal(t, "a / b | c", List([]string{"a | b", "c"}).Table)
	require.Equal(t, "0.00", Number(-0.001, 2).Table)
}
