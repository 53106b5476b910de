package layers

import (
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/geojson"
	"waterward/screening/job"
)

// Refusals are why the layers cannot be used together.
func (m *Set) Refusals() []error {
	return slices.DeleteFunc([]error{m.strayed(), m.swapped(), m.upsideDown(), m.oneTidalLine()}, func(err error) bool { return err == nil })
}

// strayed refuses a file none of whose positions are longitude and latitude
// although it does not say what they are.
func (m *Set) strayed() error {
	var faults []error
	for _, l := range m.All() {
		for _, file := range l.Files {
			if file.usable == 0 && !file.stray.IsEmpty() {
				faults = append(faults, &geojson.FileError{File: file.name, Wrong: StrayText(l.Name, file.stray, m.Extent())})
			}
		}
	}
	return job.JoinErrors(faults)
}

// strayedSurvey refuses a file of surveyed areas whose positions are no longitude and
// latitude although it does not say what they are; the crs of a job holds for its layer
// too.
func strayedSurvey(file string, stray orb.Bound) error {
	return &geojson.FileError{File: file, Wrong: StrayPlace(stray) + "; give it a crs member, or export it as longitude and latitude; if its layer is in the same system, say so by crs: in the job, which holds for both"}
}

// Extent is the bound of all layers, in degrees.
func (m *Set) Extent() orb.Bound {
	out := orb.Bound{Min: orb.Point{1, 1}, Max: orb.Point{-1, -1}}
	for _, l := range m.All() {
		if b, ok := l.Geo.Bound(); ok {
			out = out.Union(b)
		}
	}
	return out
}

// mostSystems is how many coordinate systems a message proposes.
const mostSystems = 6

func StrayText(name string, stray, near orb.Bound) string {
	text := StrayPlace(stray) + "; "
	flag := fmt.Sprintf("find out and give it with --crs %s=EPSG:n, or crs: in the job", name)
	fits := Fitting(stray, near)
	switch {
	case near.IsEmpty():
		return text + flag
	case fits == "":
		return text + "as none of the systems known here would it meet the other layers; " + flag
	}
	return text + "it would meet the other layers as " + fits + "; " + flag
}

// StrayPlace says where positions lie that can be no degrees.
func StrayPlace(stray orb.Bound) string {
	return fmt.Sprintf("its coordinates (x %.0f to %.0f, y %.0f to %.0f) are no longitude and latitude, and it does not say what they are",
		stray.Min[0], stray.Max[0], stray.Min[1], stray.Max[1])
}

// Fitting lists the systems in which such positions would meet a place.
func Fitting(stray, near orb.Bound) string {
	var fits []string
	for _, c := range crs.Meeting(stray, near) {
		fits = append(fits, c.String())
	}
	if len(fits) > mostSystems {
		fits = append(fits[:mostSystems], "and others")
	}
	return strings.Join(fits, ", ")
}

// swapped refuses a layer that meets the high water line only if its latitude
// and longitude change places.
func (m *Set) swapped() error {
	shore, ok := m.Layer("high_water").Geo.Bound()
	if !ok {
		return nil
	}
	var faults []error
	check := func(l *Layer) {
		b, ok := l.Geo.Bound()
		if ok && !b.Intersects(shore) && Swap(b).Intersects(crs.Window(shore, job.DefaultRadius)) {
			faults = append(faults, &job.Error{Message: fmt.Sprintf("%s: its positions meet the high water line only with latitude and longitude swapped; one of the two layers has them the wrong way round (GeoJSON puts longitude first)", strings.Join(l.Source.Files, ", "))})
		}
	}
	for _, name := range []string{"low_water", "shoreline", "seagrass", "wetlands", "channels", "riparian", "parcels"} {
		if l := m.Layer(name); l != nil {
			check(l)
		}
	}
	for _, l := range m.Areas {
		check(l)
	}
	return job.JoinErrors(faults)
}

func Swap(b orb.Bound) orb.Bound {
	return orb.Bound{Min: orb.Point{b.Min[1], b.Min[0]}, Max: orb.Point{b.Max[1], b.Max[0]}}
}
