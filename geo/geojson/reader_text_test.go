package geojson

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A text by itself is read as the same text in a file is, right or wrong.
func TestReadFeatureReadsAsAFileIs(t *testing.T) {
	for _, text := range []string{
		`{"type": "Feature", "properties": {"id": "a", "width_ft": 6.00}, "geometry": {"type": "MultiLineString", "coordinates": [[[-74.123456789,30],[-74.1,30.1]]]}}`,
		`{"type": "Feature", "properties": null, "geometry": {"type": "Point", "coordinates": [-74.1]}}`,
		`{"type": "Feature", "properties": {}, "geometry"`,
		``,
	} {
		r, err := NewReader("a.geojson", strings.NewReader(text))
		require.NoError(t, err)
		want, wantErr := r.Next()
		got, gotErr := ReadFeature("a.geojson", []byte(text), nil)
		require.Equal(t, wantErr, gotErr)
		require.Equal(t, want, got)
	}
}
