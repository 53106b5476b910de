package rules

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestCheckSaysWhichExampleFailsAndWhy(t *testing.T) {
	book := load(t, ladder+`examples:
  - given: {mhw_farthest: 5 ft, seagrass_nearest: 90 ft}
    path: exemption
    certainty: firm
    could_be: ""
    waiver: []
  - given: {mhw_farthest: 10.01 ft, seagrass_nearest: 90 ft, mlw_farthest: 3 ft, bank_length: 90 ft, material: stone}
    path: exemption
  - given: {mhw_farthest: 5 ft, seagrass_nearest: 90 ft}
    path: individual
  - given: {mhw_farthest: 5 ft, seagrass_nearest: unknown}
    path: exemption
  - given: {mhw_farthest: 20 ft, seagrass_nearest: 90 ft, mlw_farthest: 40 ft, bank_length: 90 ft, material: tyre}
    path: general
    certainty: close call
    could_be: exemption
    waiver: [reach, length]
  - given: {mhw_farthest: 20 ft, seagrass_nearest: 90 ft, mlw_farthest: 40 ft, bank_length: 90 ft, material: stone}
    path: general
    waiver: [reach]
`)
	require.Equal(t, []string{
		"example 2 (line 35): expected path exemption, got general, decided by exemption/reach (mhw_farthest: 10.01 ft; limit: at most 10 ft)",
		"example 3 (line 37): expected path individual, got exemption, decided by exemption/reach (mhw_farthest: 5 ft; limit: at most 10 ft)",
		"example 4 (line 39): expected path exemption, got individual, decided by exemption/grass (seagrass_nearest: the example gives seagrass_nearest as unknown; limit: at least 50 ft)",
		`example 5 (line 41): expected path general, got individual, decided by general/reach (mlw_farthest: 40 ft; limit: at most 30 ft); expected certainty "close call", got "firm"; expected could_be "exemption", got ""; expected waiver [reach, length], got []`,
	}, book.Check())
}

func TestCheckNamesWordsAndAreas(t *testing.T) {
	book := load(t, strings.Split(ladder, "paths:")[0]+`paths:
  - id: shell
    title: Shell outside the preserve
    criteria:
      - {id: material, measure: material, any_of: [shell], evidence: practice}
      - {id: preserve, measure: in_area:preserve, is: outside, evidence: practice}
  - id: individual
    title: Individual permit
    criteria: []
words: {material: [tyre]}
examples:
  - {given: {material: tyre, in_area:preserve: outside}, path: shell}
  - {given: {material: shell, in_area:preserve: [Unit 3]}, path: shell}
  - {given: {material: shell, in_area:preserve: outside}, path: individual}
`)
	require.Equal(t, []string{
		"example 1 (line 20): expected path shell, got individual, decided by shell/material (material: tyre; limit: one of: shell)",
		"example 2 (line 21): expected path shell, got individual, decided by shell/preserve (in_area:preserve: touching [Unit 3]; limit: outside)",
		"example 3 (line 22): expected path individual, got shell, with no criterion that decided it",
	}, book.Check())
}

func TestExampleValues(t *testing.T) {
	book := load(t, ladder+`examples:
  - given: {in_area:x: outside, in_area:y: inside, in_area:z: [Unit 1, Unit 2], kind: Sill, longest_run: 75 ft, openings: 2, waterway_share: 1/4}
    path: individual
`)
	e := book.Examples[0]
	require.Empty(t, e.Measure(Ref{Measure: "in_area:x"}).Names)
	require.Empty(t, e.Measure(Ref{Measure: "in_area:x"}).Unknown)
	require.Len(t, e.Measure(Ref{Measure: "in_area:y"}).Names, 1)
	require.Equal(t, []string{"Unit 1", "Unit 2"}, e.Measure(Ref{Measure: "in_area:z"}).Names)
	require.Equal(t, "Sill", e.Measure(Ref{Measure: "kind"}).Word)
	require.InDelta(t, 22.86, e.Measure(Ref{Measure: "longest_run", Opening: 1.5}).Number, 1e-12)
	require.InDelta(t, 2, e.Measure(Ref{Measure: "openings", Opening: 3}).Number, 0)
	require.InDelta(t, 0.25, e.Measure(Ref{Measure: "waterway_share"}).Number, 0)
	require.Equal(t, "the example does not give fill_volume", e.Measure(Ref{Measure: "fill_volume"}).Unknown)
}
