package levels

import (
	"fmt"
	"strconv"
	"strings"
)

// Datum is a level from which elevations are counted.
type Datum string

const (
	NAVD88 Datum = "NAVD88" // North American Vertical Datum of 1988
	MHHW   Datum = "MHHW"   // mean higher high water
	MHW    Datum = "MHW"    // mean high water
	DTL    Datum = "DTL"    // mean diurnal tide level, midway between MHHW and MLLW
	MTL    Datum = "MTL"    // mean tide level, midway between MHW and MLW
	MSL    Datum = "MSL"    // mean sea level
	MLW    Datum = "MLW"    // mean low water
	MLLW   Datum = "MLLW"   // mean lower low water
	STND   Datum = "STND"   // station datum, the zero of the gauge
)

// datums are all that are known, as they are listed: the tidal ones from high
// to low. NAVD88 stands first because it lies anywhere among them.
var datums = []Datum{NAVD88, MHHW, MHW, DTL, MTL, MSL, MLW, MLLW, STND}

// Tidal reports whether the datum is a mean over an epoch.
func (d Datum) Tidal() bool { return d != NAVD88 && d != STND }

// marks are what people write in the names of datums and nobody means.
var marks = strings.NewReplacer(" ", "", "-", "", "_", "", ".", "")

// inFull are datums by the names that stand written out beside their letters.
var inFull = map[string]Datum{
	"NAVD1988": NAVD88, "NORTHAMERICANVERTICALDATUMOF1988": NAVD88, "NORTHAMERICANVERTICALDATUM1988": NAVD88,
	"MEANHIGHERHIGHWATER": MHHW, "MEANHIGHWATER": MHW, "DIURNALTIDELEVEL": DTL, "MEANTIDELEVEL": MTL,
	"MEANSEALEVEL": MSL, "MEANLOWWATER": MLW, "MEANLOWERLOWWATER": MLLW, "STATIONDATUM": STND,
}

// Word is the name of a datum, of a known one or another, however it is written: in
// capitals, without blanks and marks, and in letters where it is written out.
func Word(text string) string {
	name := strings.ToUpper(marks.Replace(text))
	if d, ok := inFull[name]; ok {
		return string(d)
	}
	return name
}

// ParseDatum reads a datum as people write it: case, blanks and hyphens do not
// matter, names may be written out, and NAVD is NAVD88 (the tide service writes both).
func ParseDatum(text string) (Datum, error) {
	name := Word(text)
	if name == "NAVD" {
		name = string(NAVD88)
	}
	for _, d := range datums {
		if name == string(d) {
			return d, nil
		}
	}
	if name == "" {
		return "", fmt.Errorf("no vertical datum is stated; give one of %s", listDatums())
	}
	return "", fmt.Errorf("%q is not a datum known here; give one of %s", text, listDatums())
}

func listDatums() string {
	names := make([]string, len(datums))
	for i, d := range datums {
		names[i] = string(d)
	}
	return strings.Join(names, ", ")
}

// Highest is how far, in metres (60 ft), an elevation on a tidal shore can lie from any
// of its datums but the zero of a gauge: the greatest range of tide anywhere is some
// 55 ft (from memory), and a structure of the foreshore ends not far over it. Beyond
// stand slips of the pen and the numbers that files write for nothing.
const Highest = 60 * foot

// Unit is a unit of height.
type Unit string

const (
	Metres Unit = "m"
	Feet   Unit = "ft" // international: over the heights of tides the survey foot is the same
)

// foot is the international foot in metres, exact by definition.
const foot = 0.3048

// ParseUnit reads a unit as files and people write it.
func ParseUnit(text string) (Unit, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "m", "meter", "meters", "metre", "metres", "metric":
		return Metres, nil
	case "ft", "foot", "feet", "english":
		return Feet, nil
	case "":
		return "", fmt.Errorf("no unit is stated; give feet or meters")
	}
	return "", fmt.Errorf("%q is not a unit of height known here; give feet or meters", text)
}

// Metres is a height in this unit in metres.
func (u Unit) Metres(height float64) float64 {
	if u == Feet {
		return height * foot
	}
	return height
}

// from is a height in metres in this unit.
func (u Unit) from(metres float64) float64 {
	if u == Feet {
		return metres / foot
	}
	return metres
}

// Epoch is the years over which tidal datums were averaged; zero if not stated.
type Epoch struct{ First, Last int }

// ParseEpoch reads "1983-2001".
func ParseEpoch(text string) (Epoch, error) {
	first, last, both := strings.Cut(strings.TrimSpace(text), "-")
	a, errA := strconv.Atoi(strings.TrimSpace(first))
	b, errB := strconv.Atoi(strings.TrimSpace(last))
	if !both || errA != nil || errB != nil || a < 1800 || b < a || b > 2200 {
		return Epoch{}, fmt.Errorf("%q is not an epoch; give its first and last year, as 1983-2001", text)
	}
	return Epoch{a, b}, nil
}

func (e Epoch) String() string {
	if e == (Epoch{}) {
		return "not stated"
	}
	return fmt.Sprintf("%d-%d", e.First, e.Last)
}

// Same says why elevations of two epochs may not be set against each other: an
// epoch moves every tidal datum, by a tenth of a foot or more. What is not
// stated is not the same as anything.
func (e Epoch) Same(other Epoch) error {
	switch {
	case e == (Epoch{}) || other == (Epoch{}):
		return fmt.Errorf("the epoch of one of the tidal datums is not stated (%s and %s); state it", e, other)
	case e != other:
		return fmt.Errorf("the tidal datums are of the epochs %s and %s; give both in one", e, other)
	}
	return nil
}
