package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// mayImport lists for each package which others of the project it may import, tests aside:
// never one that stands above it.
var mayImport = map[string]string{
	"geo/text":             "",
	"geo/flat":             "",
	"geo/flat/flattest":    "",
	"geo/crs":              "geo/flat",
	"geo/geojson":          "geo/text geo/flat geo/crs",
	"geo/area":             "geo/flat geo/crs",
	"geo":                  "geo/flat geo/crs geo/geojson geo/area",
	"rules":                "",
	"screening/levels":     "geo/text",
	"screening/work":       "",
	"screening/job":        "geo/text geo/crs geo/geojson rules screening/levels",
	"screening/inputs":     "geo/geojson rules screening/job",
	"screening/layers":     "geo/flat geo/crs geo/geojson geo/area geo rules screening/levels screening/job screening/inputs",
	"screening/out":        "geo/text geo/crs geo/geojson screening/job",
	"screening/site":       "geo/flat geo/crs geo/geojson geo rules screening/levels screening/job screening/layers screening/out",
	"screening/front":      "geo/flat geo/crs geo screening/work screening/job screening/layers screening/site",
	"screening/envelope":   "geo/flat geo/crs geo/geojson geo/area geo rules screening/job screening/layers screening/out screening/site screening/front",
	"screening/inspect":    "geo/text geo/crs geo/geojson geo/area geo rules screening/levels screening/job screening/inputs screening/layers screening/site",
	"screening/drawing":    "",
	"screening/pages":      "geo/text screening/drawing",
	"screening/field":      "geo/text",
	"screening":            "geo/text geo/flat geo/crs geo/geojson geo rules screening/work screening/job screening/inputs screening/layers screening/out screening/site screening/front screening/envelope screening/drawing screening/pages screening/field",
	"screening/sketchtest": "geo/crs screening/job screening/out",
	"testdata/published":   "",
	"cmd/coastgen":         "",
	"cmd/waterward":        "geo/text rules screening/levels screening/job screening/inspect screening/out screening/layers screening",
}

// TestArrows: every package imports only those that stand below it.
func TestArrows(t *testing.T) {
	root := filepath.Join("..", "..")
	seen := map[string]bool{}
	require.NoError(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, filepath.Dir(path))
		if err != nil {
			return err
		}
		from := filepath.ToSlash(rel)
		allowed, known := mayImport[from]
		require.True(t, known, "%s is no package of the house", from)
		seen[from] = true
		for _, i := range file.Imports {
			name, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return err
			}
			if to, own := strings.CutPrefix(name, "waterward/"); own {
				require.Contains(t, strings.Fields(allowed), to, "%s may not import it", path)
			}
		}
		return nil
	}))
	require.Len(t, seen, len(mayImport), "packages that are gone")
}
