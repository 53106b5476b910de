package rules

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func date(t require.TestingT, text string) time.Time {
	d, err := time.Parse(dayLayout, text)
	require.NoError(t, err)
	return d
}

// edition is a book of two paths, its dates and status as given.
func edition(t require.TestingT, name, edition, period, status string) *Book {
	text := fmt.Sprintf(`book: %s
title: T
authority: test
jurisdiction: Nowhere
edition: "%s"
in_force: %s
status: %s
caution: For tests only.
paths: [{id: only, title: Only, criteria: []}]
`, name, edition, period, status)
	return load(t, text)
}

func TestTheDayChoosesTheEdition(t *testing.T) {
	gathered, err := Gather([]*Book{
		edition(t, "b", "2026", "{from: 2026-03-15, until: null}", "in force"),
		edition(t, "other", "1", "{from: null, until: null}", "in force"),
		edition(t, "b", "2022", "{from: 2022-02-25, until: 2026-03-14}", "in force"),
		edition(t, "b", "draft", "{from: 2024-01-01, until: null}", "pending"),
		edition(t, "b", "void", "{from: null, until: null}", "inoperative"),
	})
	require.NoError(t, err)
	require.Len(t, gathered, 2)
	require.Equal(t, "other", gathered[1][0].Name)
	b := gathered[0]
	// Late in the evening of the last day, five hours behind Greenwich.
	lastEvening := time.Date(2026, 3, 14, 23, 0, 0, 0, time.FixedZone("", -5*3600))
	for _, tt := range []struct {
		day  time.Time
		want string
	}{
		{date(t, "2022-02-25"), "2022"},
		{date(t, "2026-03-14"), "2022"},
		{lastEvening, "2022"},
		{date(t, "2026-03-15"), "2026"},
		{date(t, "2100-01-01"), "2026"},
	} {
		got, err := b.On(tt.day)
		require.NoError(t, err)
		require.Equal(t, tt.want, got.Edition)
	}
	_, err = b.On(date(t, "2022-02-24"))
	require.EqualError(t, err, "book b has no edition in force on 2022-02-24; there is: void (inoperative, always), 2022 (2022-02-25 to 2026-03-14), draft (pending, from 2024-01-01), 2026 (from 2026-03-15)")
	require.True(t, b.Applied())
	require.False(t, b[:1].Applied(), "an inoperative edition alone decides nothing")
}

// Two editions of the nationwide permits are live from 2026-03-15 to 2027-03-14
// (regulations on the expiry of nationwide permits, 33 CFR 330.6(b)): work begun
// or under contract before goes on under the older.
func TestStartedWorkGoesOnUnderTheOlderEdition(t *testing.T) {
	b, err := BuiltIn("us-federal")
	require.NoError(t, err)
	for _, tt := range []struct{ day, started, want string }{
		{"2026-03-14", "", "2021"},
		{"2026-03-15", "", "2026"},
		{"2026-03-15", "2026-03-14", "2021"},
		{"2027-03-14", "2022-02-25", "2021"},
		{"2027-03-15", "2026-03-14", "2026"}, // the year is over
		{"2026-11-25", "2026-03-15", "2026"},
		{"2026-11-25", "2020-05-01", "2026"}, // the edition of its time is long gone
		{"2031-03-15", "", "2026"},
	} {
		started := time.Time{}
		if tt.started != "" {
			started = date(t, tt.started)
		}
		got, err := b.For(date(t, tt.day), started)
		require.NoError(t, err)
		require.Equal(t, tt.want, got.Edition, "%+v", tt)
	}
	older := b.Older(date(t, "2026-11-25"))
	require.Len(t, older, 1)
	require.Equal(t, "2021", older[0].Edition)
	require.Empty(t, b.Older(date(t, "2026-03-14")))
	require.Empty(t, b.Older(date(t, "2027-03-15")))
	_, err = b.On(date(t, "2031-03-16"))
	require.ErrorContains(t, err, "2026 (2026-03-15 to 2031-03-15")
}

func TestEditionsThatClash(t *testing.T) {
	first := edition(t, "b", "1", "{from: 2020-01-01, until: 2024-12-31}", "in force")
	for _, tt := range []struct {
		name   string
		second *Book
		want   string
	}{
		{"overlap", edition(t, "b", "2", "{from: 2024-12-31, until: null}", "in force"),
			"test.yaml:6:11: editions 1 and 2 of b overlap: end 1 (test.yaml:6:11) the day before 2 begins"},
		{"the later has no beginning", edition(t, "b", "2", "{from: null, until: 2021-01-01}", "in force"),
			"test.yaml:6:11: editions 2 and 1 of b overlap: end 2 (test.yaml:6:11) the day before 1 begins"},
		{"one name twice", edition(t, "b", "1", "{from: 2025-01-01, until: null}", "in force"),
			"test.yaml:6:11: edition 1 of b is there twice, also in test.yaml:6:11: give each edition its own name"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Gather([]*Book{first, tt.second})
			require.EqualError(t, err, tt.want)
		})
	}
	other := edition(t, "b", "2", "{from: 2025-01-01, until: null}", "in force")
	other.Authority = "another"
	_, err := Gather([]*Book{first, other})
	require.ErrorContains(t, err, "editions of one book have one authority")
	for _, fine := range []*Book{
		edition(t, "b", "2", "{from: 2025-01-01, until: null}", "in force"),
		edition(t, "b", "2", "{from: 2024-01-01, until: null}", "pending"),
		edition(t, "c", "1", "{from: 2024-01-01, until: null}", "in force"),
	} {
		_, err := Gather([]*Book{first, fine})
		require.NoError(t, err)
	}
}

func TestWorkStartedIsReadStrictly(t *testing.T) {
	with := func(period, started string) error {
		_, err := Load("test.yaml", strings.NewReader(fmt.Sprintf("book: b\ntitle: T\nauthority: test\njurisdiction: Nowhere\n"+
			"edition: \"1\"\nin_force: %s\nwork_started: %s\nstatus: in force\ncaution: For tests only.\n"+
			"paths: [{id: only, title: Only, criteria: []}]\n", period, started)))
		return err
	}
	require.NoError(t, with("{from: 2022-02-25, until: 2026-03-14}", "{until: 2027-03-14, evidence: practice}"))
	require.ErrorContains(t, with("{from: 2022-02-25, until: null}", "{until: 2027-03-14, evidence: practice}"),
		"test.yaml:7:15: work_started says what holds after the book's last day, but in_force has none")
	require.ErrorContains(t, with("{from: 2022-02-25, until: 2026-03-14}", "{until: 2026-03-14, evidence: practice}"),
		"test.yaml:7:23: work started under the book goes on past its last day, 2026-03-14: give a later day")
	require.ErrorContains(t, with("{from: 2022-02-25, until: 2026-03-14}", "{until: null, evidence: practice}"), "needs the last day")
	require.ErrorContains(t, with("{from: 2022-02-25, until: 2026-03-14}", "{until: 2027-03-14, evidence: read}"), `needs the key "cite"`)
}
