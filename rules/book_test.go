package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestCovers(t *testing.T) {
	day := func(text string) time.Time {
		d, err := time.Parse(dayLayout, text)
		require.NoError(t, err)
		return d
	}
	book := Book{Name: "b", Edition: "1", Status: InForce, From: day("2020-01-01"), Until: day("2029-12-31")}
	open := Book{Name: "b", Edition: "1", Status: InForce}
	pending := Book{Name: "b", Edition: "1", Status: Pending}
	inoperative := Book{Name: "b", Edition: "1", Status: Inoperative}
	// Late in the evening of the last day, five hours behind Greenwich.
	lastEvening := time.Date(2029, 12, 31, 23, 0, 0, 0, time.FixedZone("", -5*3600))
	for _, tt := range []struct {
		book    Book
		day     time.Time
		message string
	}{
		{book, day("2020-01-01"), ""},
		{book, day("2029-12-31"), ""},
		{book, lastEvening, ""},
		{book, day("2019-12-31"), "book b, edition 1, is in force only from 2020-01-01, after 2019-12-31"},
		{book, day("2030-01-01"), "book b, edition 1, is in force only until 2029-12-31, before 2030-01-01"},
		{open, day("1900-01-01"), ""},
		{open, day("2100-01-01"), ""},
		{pending, day("2025-01-01"), "book b, edition 1, is pending and decides nothing"},
		{inoperative, day("2025-01-01"), "book b, edition 1, is inoperative and decides nothing"},
	} {
		err := tt.book.Covers(tt.day)
		if tt.message == "" {
			require.NoError(t, err)
			continue
		}
		require.EqualError(t, err, tt.message)
	}
}

func TestTheFederalBookCoversItsFiveYears(t *testing.T) {
	book, err := BuiltIn("us-federal")
	require.NoError(t, err)
	// 91 FR 768: in force from 2026-03-15 to 2031-03-15.
	require.Error(t, book.Covers(time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)))
	require.NoError(t, book.Covers(time.Date(2026, 3, 15, 0, 0, 0, 0, time.UTC)))
	require.NoError(t, book.Covers(time.Date(2031, 3, 15, 0, 0, 0, 0, time.UTC)))
	require.Error(t, book.Covers(time.Date(2031, 3, 16, 0, 0, 0, 0, time.UTC)))
}

func TestLimitText(t *testing.T) {
	for _, tt := range []struct {
		criterion *Criterion
		text      string
	}{
		{criterion(t, "mhw_farthest", AtMost, "10 ft"), "at most 10 ft"},
		{criterion(t, "footprint_area", AtLeast, "0.25 acre"), "at least 0.25 acre"},
		{criterion(t, "waterway_share", UnderLimit, "25 %"), "less than 25 %"},
		{criterion(t, "openings", OverLimit, "2"), "more than 2"},
		{wordCriterion(t, "kind", Is, "sill"), "sill"},
		{wordCriterion(t, "kind", AnyOf, "sill", "breakwater"), "one of: sill, breakwater"},
		{wordCriterion(t, "kind", NoneOf, "sill"), "none of: sill"},
	} {
		require.Equal(t, tt.text, tt.criterion.LimitText())
	}
}
