package rules

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// saying counts the notices with a text in them.
func saying(notices []*Notice, text string) int {
	count := 0
	for _, n := range notices {
		if strings.Contains(n.Says, text) {
			count++
		}
	}
	return count
}

// Notices beyond a figure are not shown at it; where it cannot be told they are
// not checked. N54-PCN, N54-AC, N13-PCN, GC 18, N27 and SAJ-04, worked by hand.
func TestNoticesOfTheNationwidePermits(t *testing.T) {
	for _, edition := range []string{"2017", "2021", "2026"} {
		federal := editionOf(t, "us-federal", edition)
		for _, tt := range []struct {
			name      string
			facts     table
			text      string
			shown     int
			unchecked int
		}{
			{"notification, always", lowSill, "Pre-construction notification", 1, 0},
			{"500 ft of bank", given(lowSill, table{"project_bank_length": lengthOf(500)}), "other agencies", 0, 0},
			{"500.01 ft of bank", given(lowSill, table{"project_bank_length": lengthOf(500.01)}), "other agencies", 1, 0},
			{"30 ft from low water", given(lowSill, table{"mlw_farthest": lengthOf(30)}), "other agencies", 0, 0},
			{"both beyond", given(lowSill, table{"mlw_farthest": lengthOf(30.01), "project_bank_length": lengthOf(500.01)}), "other agencies", 2, 0},
			{"1 cu yd a foot on bare bottom", given(upperSill, table{"fill_per_length": fillOf(500)}), "Pre-construction notification", 0, 0},
			{"500.01 ft, without a low water line", given(upperSill, table{"fill_per_length": fillOf(500), "project_bank_length": lengthOf(500.01)}),
				"Pre-construction notification", 1, 0},
			{"more, on grass and wetland", given(upperSill, table{"fill_per_length": fillOf(501), "seagrass_overlap": areaOf(1), "wetland_overlap": areaOf(1)}),
				"Pre-construction notification", 3, 0},
			{"habitat not mapped", lowSill, "critical habitat", 0, 1},
			{"outside habitat", given(lowSill, table{"in_area:critical_habitat": {}}), "critical habitat", 0, 0},
			{"in habitat", given(lowSill, table{"in_area:critical_habitat": touched}), "critical habitat", 1, 0},
			{"over seagrass", given(lowSill, table{"seagrass_overlap": areaOf(1)}), "lies over seagrass", 1, 0},
			{"clear of seagrass", given(lowSill, table{"seagrass_overlap": {}}), "lies over seagrass", 0, 0},
			{"suspended permits, always", lowSill, "has suspended", 1, 0},
			{"mud flats, for permit 13", given(upperSill, table{"fill_per_length": fillOf(400)}), "Mud flats", 1, 0},
			{"rock", lowSill, "Nationwide permit 27", 0, 0},
			{"shell", given(lowSill, table{"material": {Word: "Oyster shell"}}), "Nationwide permit 27", 1, 0},
			{"a run of 75 ft", given(lowSill, table{"longest_run": lengthOf(75)}), "fisheries opinion", 0, 0},
			{"a run of 75.01 ft", given(lowSill, table{"longest_run": lengthOf(75.01)}), "fisheries opinion", 1, 0},
		} {
			d := federal.Decide(tt.facts)
			require.Equal(t, tt.shown, saying(d.Notices, tt.text), "%s %s", edition, tt.name)
			require.Equal(t, tt.unchecked, saying(d.Unchecked, tt.text), "%s %s", edition, tt.name)
		}
	}
}

// FL-SSL-02, -05, -06, FL-AP-01, FL-AP-05, FL-WQ-03 and SAJ-07, worked by hand.
func TestNoticesOfFlorida(t *testing.T) {
	lands := editionOf(t, "us-fl-lands", "2019")
	channel := editionOf(t, "us-channel-setback", "2013")
	inPreserve := given(besideLine, table{"in_area:aquatic_preserve": touched})
	for _, tt := range []struct {
		name      string
		book      *Book
		facts     table
		text      string
		shown     int
		unchecked int
	}{
		{"100 ft from the channel", channel, table{"channel_nearest": lengthOf(100)}, "1998", 0, 0},
		{"99.99 ft from the channel", channel, table{"channel_nearest": lengthOf(99.99)}, "1998", 1, 0},
		{"25 ft from the line", lands, given(besideLine, table{"riparian_nearest": lengthOf(25)}), "Curable", 0, 0},
		{"24.99 ft from the line", lands, given(besideLine, table{"riparian_nearest": lengthOf(24.99)}), "Curable", 1, 0},
		{"in a preserve", lands, inPreserve, "aquatic preserve", 1, 0},
		{"in a preserve", lands, inPreserve, "rules of their own", 1, 0},
		{"outside preserves", lands, besideLine, "rules of their own", 0, 0},
		{"a dock", lands, given(besideLine, table{"kind": {Word: "dock"}}), "a marginal dock 10 ft", 1, 0},
		{"a dock", lands, given(besideLine, table{"kind": {Word: "dock"}}), "65 ft of it", 1, 0},
		{"a breakwater", lands, besideLine, "65 ft of it", 0, 0},
		{"in a harvest area", lands, given(besideLine, table{"in_area:shellfish_harvest_area": touched}), "two maps", 1, 0},
	} {
		d := tt.book.Decide(tt.facts)
		require.Equal(t, tt.shown, saying(d.Notices, tt.text), tt.name)
		require.Equal(t, tt.unchecked, saying(d.Unchecked, tt.text), tt.name)
	}
}

// Figures too doubtful for a limit are kept, but only as such.
func TestDoubtfulFiguresOfFloridaRestOnNothing(t *testing.T) {
	for _, tt := range []struct{ rule, book, edition, text string }{
		{"FL-EX-05", "us-fl-state", "2024", "3 ft clear"},
		{"FL-GP600s", "us-fl-state", "2024", ".600"},
		{"FL-SSL-07", "us-fl-lands", "2019", "only 10 ft waterward"},
		{"FL-SSL-08", "us-fl-lands", "2019", "consent by rule"},
		{"SAJ-07", "us-channel-setback", "2013", "62.5 ft in some reaches"},
	} {
		book := editionOf(t, tt.book, tt.edition)
		notices := book.Notices
		for _, path := range book.Paths {
			notices = append(notices, path.Notices...)
		}
		found := 0
		for _, n := range notices {
			if strings.Contains(n.Says, tt.text) {
				require.Equal(t, Unverified, n.Evidence, tt.rule)
				found++
			}
		}
		require.Equal(t, 1, found, tt.rule)
	}
}

// The days are those of 82 FR 1860, 86 FR 73522 and 91 FR 768 with the year of
// 33 CFR 330.6(b), of the end of the state's 404 program, and of the notice that
// revised the setbacks. The last days of started work are from accounts, but
// for that of 2032 and for 2013-10-01, which are from memory; 2020-12-22 was read on
// sister sections; of 1998 only the year is known.
func TestEditionsOfFloridaAndOfTheNationwidePermits(t *testing.T) {
	for _, tt := range []struct{ book, day, started, want string }{
		{"us-federal", "2017-03-18", "", ""},
		{"us-federal", "2017-03-19", "", "2017"},
		{"us-federal", "2022-02-24", "", "2017"},
		{"us-federal", "2022-02-25", "", "2021"},
		{"us-federal", "2022-02-25", "2022-02-24", "2017"},
		// The earliest of the last days that accounts name.
		{"us-federal", "2022-03-18", "2022-02-24", "2017"},
		{"us-federal", "2022-03-19", "2022-02-24", "2021"},
		// For a year two editions are live.
		{"us-federal", "2026-03-15", "", "2026"},
		{"us-federal", "2026-03-15", "2026-03-14", "2021"},
		{"us-federal", "2027-03-14", "2026-03-14", "2021"},
		{"us-federal", "2027-03-15", "2026-03-14", "2026"},
		{"us-federal", "2031-03-16", "", ""},
		{"us-federal", "2031-03-16", "2031-03-15", "2026"},
		{"us-federal", "2032-03-16", "2031-03-15", ""},
		{"us-fl-state", "2013-09-30", "", ""},
		{"us-fl-state", "2013-10-01", "", "2024"},
		{"us-fl-state", "2026-11-25", "", "2024"},
		{"us-fl-lands", "2019-03-20", "", ""},
		{"us-fl-lands", "2019-03-21", "", "2019"},
		{"us-channel-setback", "1997-12-31", "", ""},
		{"us-channel-setback", "1998-01-01", "", "1998"},
		{"us-channel-setback", "2013-12-17", "", "1998"},
		{"us-channel-setback", "2013-12-18", "", "2013"},
		{"us-channel-setback", "2026-11-25", "", "2013"},
		// Printed, but never decides.
		{"us-fl-404", "2023-01-01", "", ""},
		{"us-fl-404", "2024-02-15", "", ""},
	} {
		editions, err := BuiltIn(tt.book)
		require.NoError(t, err)
		var started time.Time
		if tt.started != "" {
			started = date(t, tt.started)
		}
		book, err := editions.For(date(t, tt.day), started)
		if tt.want == "" {
			require.Error(t, err, "%+v", tt)
			continue
		}
		require.NoError(t, err)
		require.Equal(t, tt.want, book.Edition, "%+v", tt)
	}
	mirror := editionOf(t, "us-fl-404", "2020")
	require.Equal(t, "inoperative, 2020-12-22 to 2024-02-14", mirror.Period())
	require.False(t, Editions{mirror}.Applied())
}
