package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"

	"waterward/geo/crs"
	"waterward/rules"
)

// FileList is the files of a layer: one name, or a list of them.
type FileList []string

// UnmarshalYAML reads one name or a list.
func (l *FileList) UnmarshalYAML(node *yaml.Node) error {
	if node.Kind == yaml.ScalarNode {
		*l = FileList{node.Value}
		return nil
	}
	if node.Kind != yaml.SequenceNode {
		return fmt.Errorf("file is the name of a file, or a list of them: [one, two]")
	}
	return node.Load((*[]string)(l))
}

// System is a stated coordinate system; its zero value is unstated.
type System struct{ *crs.System }

// ParseSystem reads the name of a coordinate system, such as EPSG:6438.
func ParseSystem(text string) (System, error) {
	system, err := crs.Parse(text)
	return System{system}, err
}

// UnmarshalYAML reads the coordinate system of a job file.
func (s *System) UnmarshalYAML(node *yaml.Node) error {
	var err error
	*s, err = ParseSystem(node.Value)
	return err
}

// webMercator is a map's projection: a length on it is 15 % more than on the ground at 30
// degrees of latitude.
const webMercator = 3857

// noGrid says why a surveyor cannot use coordinates in the system.
func (s System) noGrid() string {
	switch {
	case s.System == nil:
	case s.IsDegrees():
		return s.String() + " counts degrees, which stand there anyway; name a projected system, such as EPSG:6438"
	case s.Code == webMercator:
		return s.String() + " is no grid to measure on; name a State Plane or UTM zone, such as EPSG:6438"
	}
	return ""
}

// Distance is a stated length in metres; its zero value is unstated.
type Distance struct {
	Metres float64
	Stated bool
}

// OrNaN returns the accuracy in metres, NaN if unstated: none is 0, so where one is, it has
// not been filled in.
func (d Distance) OrNaN() float64 {
	if !d.Stated || d.Metres == 0 {
		return math.NaN()
	}
	return d.Metres
}

// ParseDistance reads a length such as "2 ft" or "0.6 m".
func ParseDistance(text string) (Distance, error) {
	number, name, _ := strings.Cut(strings.TrimSpace(text), " ")
	value, err := strconv.ParseFloat(number, 64)
	unit, ok := rules.FindUnit(strings.TrimSpace(name), rules.Length)
	if err != nil || !ok || value < 0 || math.IsInf(value, 0) || math.IsNaN(value) {
		return Distance{}, fmt.Errorf(`%q is not a length; write a number and its unit, such as "2 ft" or "0.6 m"`, text)
	}
	return Distance{Metres: value * unit.SI(), Stated: true}, nil
}

// UnmarshalYAML reads the length of a job file.
func (d *Distance) UnmarshalYAML(node *yaml.Node) error {
	var err error
	*d, err = ParseDistance(node.Value)
	return err
}

// Day is a calendar day; its zero value is unstated.
type Day struct{ time.Time }

// ParseDay reads a day such as 2026-11-25.
func ParseDay(text string) (Day, error) {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return Day{}, fmt.Errorf("%q is not a date; write it as 2026-11-25", text)
	}
	return Day{t}, nil
}

// UnmarshalYAML reads the day of a job file.
func (d *Day) UnmarshalYAML(node *yaml.Node) error {
	var err error
	*d, err = ParseDay(node.Value)
	return err
}
