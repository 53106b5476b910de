package screening

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// Water levels. The sandbox's station is a mile off; its tide is one constituent, M2, of
// 2 ft about mean sea level, which lies at -1.5 ft: so the crest, 1 ft over that, is out of
// the water for 1/2 + asin(1/2)/pi of the time, 66.7 %.
var levelCases = []firmCase{
	{name: "a station nearby that agrees with the lines", change: stationNear(nil), want: everyone(firm)},
	{name: "a station nearby, the crest above its MLLW", change: several(stationNear(nil), crestOverMLLW("3.1", "1.7")), want: map[string]string{"state": firm, "lands": firm, "federal": firm}},
	{name: "a station 150 miles off, the crest above its MLLW", change: several(stationNear(map[string]string{"lat": "32.2"}), crestOverMLLW("3.1", "1.7")), want: map[string]string{"state": unsure, "town": unsure, "lands": firm}, says: "station"},
	{name: "a station 150 miles off that nothing asks", change: stationNear(map[string]string{"lat": "32.2"}), want: everyone(firm)},
	// MLLW lies at -3.6 ft by one and at -4.6 by the other: 4.3 ft over it is 0.7, above
	// mean high water, or -0.3.
	{name: "between two stations that differ", change: several(stationNear(map[string]string{"lat": "29.9855"}), func(s *sandbox) {
		s.Sketch["t2.csv"] = stationTable(map[string]string{"lat": "30.0144", "MLLW": "1.4", "station": "T2"})
		s.more = "levels: {stations: [ts.csv, t2.csv]}\n"
	}, crestOverMLLW("4.3", "2.5")), want: map[string]string{"state": unsure, "town": unsure}},
	// By the station mean high water is at -0.5 ft, by the line at 0.5: a crest at 0.
	{name: "station and line disagree by 1 ft", change: several(stationNear(map[string]string{"MHW": "5.5", "MHHW": "5.6"}), reef("crest_elev_ft", "0")), want: map[string]string{"state": unsure, "town": unsure}, says: "station"},
	{name: "station and line disagree by half a foot", change: several(stationNear(map[string]string{"MHW": "6", "MHHW": "6.1"}), reef("crest_elev_ft", "0.1")), want: map[string]string{"state": unsure, "town": unsure}, says: "station"},
	// By the station mean low water is at -1.5 ft, 0.4 ft over the bed.
	{name: "station and low water disagree by 2 ft", change: several(stationNear(map[string]string{"MLW": "4.5", "MLLW": "4.4"}), asksOnly("measure: mlw_greatest_depth, at_most: 0 ft")), want: map[string]string{"town": unsure}},
	{name: "station and line disagree by a tenth", change: several(stationNear(map[string]string{"MHW": "6.4", "MHHW": "6.5"}), reef("crest_elev_ft", "-0.5")), want: everyone(firm)},
	{name: "lines without an epoch beside a station of another", change: several(stationNear(map[string]string{"epoch": "2002-2020"}), noEpoch, reef("crest_elev_ft", "0.2")), want: map[string]string{"state": unsure, "town": unsure}, says: "epoch"},
	{name: "lines of another epoch than the station", change: stationNear(map[string]string{"epoch": "2002-2020"}), refused: true, says: "epoch|2002-2020"},
	{name: "two lines of two epochs", change: layerSays("low_water", "epoch", "2002-2020"), refused: true, says: "epoch"},
	{name: "a station that is not given", change: several(stationNear(nil), reef("station", `"T9"`), crestOverMLLW("3.1", "1.7")), want: map[string]string{"state": asks, "town": asks}, says: "T9"},

	{name: "a crest out of the water long enough by a whole year", change: several(stationNear(nil), daysRecorded(365, nil), exposedAtMost("80 %")), want: map[string]string{"town": firm}},
	{name: "by three days", change: several(stationNear(nil), daysRecorded(3, nil), exposedAtMost("70 %")), want: map[string]string{"town": wary}},
	{name: "by three days, far from the limit", change: several(stationNear(nil), daysRecorded(3, nil), exposedAtMost("75 %")), want: map[string]string{"town": wary}},
	{name: "by sixty days without low water", change: several(stationNear(nil), daysRecorded(60, func(z float64) bool { return z > -2.9 }), exposedAtMost("65 %")), want: map[string]string{"town": wary}},
	{name: "by a year without low water", change: several(stationNear(nil), daysRecorded(365, func(z float64) bool { return z > -3.2 }), exposedAtMost("65 %")), want: map[string]string{"town": wary}},
	{name: "by a year in which nobody trusts the levels", change: several(stationNear(nil), flaggedRecord, exposedAtMost("80 %")), want: map[string]string{"town": wary}},
	// In metres taken for feet the tide seems to be of 0.6 ft about -0.46 ft.
	{name: "by a year of metres called feet", change: several(stationNear(nil), gaugeOf(2025, func(z float64) float64 { return z * 0.3048 }), exposedAtMost("60 %")), want: map[string]string{"town": wary}},
	{name: "by a year recorded over another zero, 1 ft off", change: several(stationNear(nil), gaugeOf(2025, func(z float64) float64 { return z + 1 }), exposedAtMost("60 %")), want: map[string]string{"town": wary}},
	{name: "by a year of fifty years ago", change: several(stationNear(nil), gaugeOf(1975, func(z float64) float64 { return z }), exposedAtMost("80 %")), want: map[string]string{"town": wary}},
	{name: "by a year to come", change: several(stationNear(nil), gaugeOf(2030, func(z float64) float64 { return z }), exposedAtMost("80 %")), want: map[string]string{"town": wary}},
	{name: "by a station whose tide is a third of what its datums say", change: several(stationNear(map[string]string{"M2": "0.61,0"}), exposedAtMost("95 %")), want: map[string]string{"town": wary}},
	{name: "by a station without constituents", change: several(func(s *sandbox) {
		stationNear(nil)(s)
		s.Sketch["ts.csv"] = s.Sketch["ts.csv"][:len(s.Sketch["ts.csv"])-1]
	}, exposedAtMost("80 %")), want: map[string]string{"town": asks}},
	{name: "by prediction, well inside", change: several(stationNear(nil), exposedAtMost("80 %")), want: map[string]string{"town": firm}},
	{name: "by prediction of a station 150 miles off", change: several(stationNear(map[string]string{"lat": "32.2"}), exposedAtMost("80 %")), want: map[string]string{"town": wary}, says: "station"},
	{name: "by a record with decimal commas", change: several(stationNear(nil), commaRecord, exposedAtMost("80 %")), want: map[string]string{"town": wary}},
}

// stationTable is the sandbox's station, some lines of it otherwise.
func stationTable(other map[string]string) (out []string) {
	for _, row := range []string{
		"station,TS", "name,Test Sound", "lon,-74.6", "lat,30.0145", "source,invented", "unit,feet", "epoch,1983-2001",
		"NAVD88,6", "MHHW,6.6", "MHW,6.5", "MSL,4.5", "MTL,4.5", "MLW,2.5", "MLLW,2.4", "M2,2,0",
	} {
		name, _, _ := strings.Cut(row, ",")
		if value, stated := other[name]; stated {
			row = name + "," + value
		}
		out = append(out, row)
	}
	return out
}

func stationNear(other map[string]string) change {
	return func(s *sandbox) {
		s.Sketch["ts.csv"] = stationTable(other)
		s.more = "levels: {stations: [ts.csv]}\n"
	}
}

func crestOverMLLW(crest, bed string) change {
	return reef("datum", `"MLLW"`, "crest_elev_ft", crest, "bed_elev_ft", bed)
}

func noEpoch(s *sandbox) {
	layerSays("high_water", "epoch", gone)(s)
	layerSays("low_water", "epoch", gone)(s)
}

// exposedAtMost is the town's only limit.
func exposedAtMost(most string) change {
	return asksOnly("measure: crest_exposed, at_most: " + asShare(most))
}

func asShare(percent string) string {
	var number float64
	fmt.Sscanf(percent, "%g", &number)
	return fmt.Sprintf("%.2f", number/100)
}

// daysRecorded is the tide of so many days from 2025-01-01 by the hour, over NAVD88, with only
// those levels that are kept.
func daysRecorded(days int, kept func(float64) bool) change {
	return func(s *sandbox) {
		rows := []string{"time,level"}
		hourlyTide(2025, days, func(when string, z float64) {
			if kept == nil || kept(z) {
				rows = append(rows, fmt.Sprintf("%s,%.3f", when, z))
			}
		})
		recorded(s, rows)
	}
}

func hourlyTide(year, days int, each func(when string, z float64)) {
	for hour := range 24 * days {
		when := time.Date(year, 1, 1, hour, 0, 0, 0, time.UTC).Format("2006-01-02 15:04")
		each(when, -1.5+2*math.Cos(2*math.Pi*float64(hour)/12.4206))
	}
}

func recorded(s *sandbox, rows []string) {
	s.Sketch["gauge.csv"] = rows
	s.more = "levels: {stations: [ts.csv], record: {file: gauge.csv, unit: ft, datum: NAVD88, zone: GMT}}\n"
}

// flaggedRecord has the tide service's flags, of which the third says that limits of the
// rate of change were exceeded, set throughout.
func flaggedRecord(s *sandbox) {
	rows := []string{"Date Time, Water Level, Sigma, O or I (for verified), F, R, L, Quality "}
	hourlyTide(2025, 365, func(when string, z float64) { rows = append(rows, fmt.Sprintf("%s,%.3f,0.9,1,1,1,1,p", when, z)) })
	recorded(s, rows)
}

// commaRecord writes its levels with decimal commas, so that a column too many stands
// behind the whole feet.
func commaRecord(s *sandbox) {
	rows := []string{"time,level"}
	hourlyTide(2025, 365, func(when string, z float64) {
		rows = append(rows, when+","+strings.Replace(fmt.Sprintf("%.3f", z), ".", ",", 1))
	})
	recorded(s, rows)
}

// gaugeOf is the tide of a year as a gauge has it.
func gaugeOf(year int, reads func(float64) float64) change {
	return func(s *sandbox) {
		rows := []string{"time,level"}
		hourlyTide(year, 365, func(when string, z float64) { rows = append(rows, fmt.Sprintf("%s,%.3f", when, reads(z))) })
		recorded(s, rows)
	}
}
