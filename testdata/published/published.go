// Package published holds check values made outside this project, for the tests of any
// package. README.md beside them says where each comes from.
package published

import (
	"embed"
	"encoding/csv"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

//go:embed *.csv
var files embed.FS

// Table reads a file of check values: its rows by column name.
func Table(t testing.TB, name string) []map[string]string {
	file, err := files.Open(name)
	require.NoError(t, err)
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 1, name)
	var out []map[string]string
	for _, row := range rows[1:] {
		named := map[string]string{}
		for i, column := range rows[0] {
			named[column] = row[i]
		}
		out = append(out, named)
	}
	return out
}

// Number reads a number of such a table.
func Number(t testing.TB, text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}
