// Command coastgen writes an invented coast, with its layers, proposals and a job, on
// which waterward can be measured. The same seed writes the same bytes.
package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"
)

// size says how long a coast is and how densely it is mapped.
type size struct {
	km        float64
	proposals int
	grass     float64 // beds of seagrass in a kilometre of shore
	front     float64 // of a parcel along the shore, in metres
}

// The small coast is a piece of the county. A state has lots of less front, and more
// proposals, to the kilometre.
var sizes = map[string]size{
	"small":  {km: 30, proposals: 50, grass: 21500.0 / 1500, front: 22.4},
	"county": {km: 1500, proposals: 5000, grass: 21500.0 / 1500, front: 22.4},
	"state":  {km: 13000, proposals: 100000, grass: 165000.0 / 13000, front: 18.4},
}

func main() {
	if err := run(os.Args, os.Stderr); err != nil {
		fmt.Fprintln(os.Stderr, "coastgen:", err)
		os.Exit(1)
	}
}

func run(args []string, stderr io.Writer) error {
	app := &cli.App{
		Name:            "coastgen",
		Usage:           "write an invented coast, with a job to screen it",
		HideHelpCommand: true,
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "size", Value: "small", Usage: "`SIZE` of the coast: small (30 km), county (1,500 km) or state (13,000 km)"},
			&cli.Uint64Flag{Name: "seed", Value: 1, Usage: "`NUMBER` that decides the coast"},
			&cli.StringFlag{Name: "out", Required: true, Usage: "`DIR` to write to"},
			&cli.Float64Flag{Name: "km", Usage: "length of the shore, if not that of the size, in `KM`"},
			&cli.IntFlag{Name: "proposals", Usage: "`NUMBER` of proposals, if not that of the size"},
		},
		ErrWriter:      stderr,
		ExitErrHandler: func(*cli.Context, error) {},
		Action: func(c *cli.Context) error {
			of, known := sizes[c.String("size")]
			if !known {
				return fmt.Errorf("--size: there is no size %q; there are small, county and state", c.String("size"))
			}
			if c.IsSet("km") {
				of.km = c.Float64("km")
			}
			if c.IsSet("proposals") {
				of.proposals = c.Int("proposals")
			}
			said, err := generate(of, c.Uint64("seed"), c.String("out"))
			if err == nil {
				fmt.Fprintln(stderr, said)
			}
			return err
		},
	}
	return app.Run(args)
}

// generate writes a coast and says what it wrote.
func generate(of size, seed uint64, dir string) (string, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", err
	}
	c := &coast{size: of, seed: seed, layers: map[string]*layer{}}
	for _, name := range layerNames {
		l, err := createLayer(dir, name)
		if err != nil {
			return "", err
		}
		c.layers[name] = l
	}
	for c.metres < of.km*1000-slack {
		c.strand()
	}
	said := []string{fmt.Sprintf("%.0f km of shore", c.metres/1000)}
	for _, name := range layerNames {
		l := c.layers[name]
		if err := l.close(); err != nil {
			return "", err
		}
		said = append(said, fmt.Sprintf("%s %d (%d vertices)", name, l.features, l.vertices))
	}
	return strings.Join(said, ", "), os.WriteFile(filepath.Join(dir, "job.yaml"), []byte(jobText), 0o644)
}
