package rules

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// whole uses every key the format has.
const whole = `book: whole
title: A book with everything
authority: test
jurisdiction: Nowhere
edition: "2"
in_force: {from: 2022-02-25, until: 2026-03-14}
work_started: {until: 2027-03-14, cite: Rule 0, evidence: read}
status: in force
caution: For tests only.
words: {material: [rock, shell bags], kind: [reef ball]}
notices:
  - says: Notify the keeper of the preserve
    when: {measure: in_area:preserve, is: inside}
    cite: Rule 1
    evidence: read
  - {says: Perhaps a figure of 62 ft, evidence: unverified, cite: Rule 2}
paths:
  - id: general
    title: General permit
    conditions:
      - {says: Plant what grows here, evidence: practice}
    notices:
      - {says: Notify first, cite: Rule 9, evidence: memory}
    criteria:
      - id: length
        measure: overall_length
        at_most: 500 ft
        interpretation: openings counted in
        interpretations:
          - {id: strict, measure: overall_length, less_than: 500 ft, says: less than 500 ft, evidence: secondary, cite: Rule 3}
          - {id: bank, measure: bank_length, at_most: 500 ft, says: along the bank, evidence: practice}
        waivable_by: the engineer
        cite: Rule 3
        evidence: read
        looked: 2026-11-25
        says: No longer than 500 ft
      - id: stand-off
        greatest_of: [mhw_landward_edge, wetland_landward_edge]
        max_age: 18 months
        at_most: 5 ft
        when:
          - {measure: fill_proposed, is: "no"}
          - {measure: wetland_nearest, at_most: 30 ft}
        evidence: practice
      - id: height
        least_of: [crest_above_mhw, crest_above_wetland]
        at_most: 6 in
        evidence: practice
      - id: gaps
        measure: openings_lacking
        with: {opening: 5 ft, every: 100 ft}
        at_most: 0
        evidence: practice
      - {id: stuff, measure: material, none_of: [tyre, asphalt], scope: true, if_stated: true, evidence: practice}
  - id: relief
    title: Relief permit
    criteria:
      - {id: wide, measure: bank_length, at_most: 900 ft, evidence: practice}
    unread:
      - {id: rest, says: how high it may stand, cite: Rule 4}
  - {id: individual, title: Individual permit, criteria: []}
examples:
  - given: {overall_length: 500 ft, fill_proposed: "yes", crest_above_mhw: 6 in, crest_above_wetland: 9 in, openings_lacking: 0, material: rock}
    path: general
    certainty: close call
    could_be: ""
    waiver: []
`

func TestLoadReadsEverything(t *testing.T) {
	book := load(t, whole)
	require.Empty(t, book.Check())
	require.Equal(t, "2022-02-25 to 2026-03-14, for work started by then to 2027-03-14", book.Period())
	require.Equal(t, Read, book.Started.Evidence)
	require.Equal(t, InForce, book.Status)
	require.Equal(t, "it is inside preserve", book.Notices[0].When[0].String())
	require.Equal(t, Unverified, book.Notices[1].Evidence)
	path := book.Paths[0]
	require.Equal(t, "Plant what grows here", path.Conditions[0].Says)
	require.Equal(t, "Notify first (Rule 9, memory)", path.Notices[0].String())
	length, standOff, height, gaps, stuff := path.Criteria[0], path.Criteria[1], path.Criteria[2], path.Criteria[3], path.Criteria[4]
	require.Equal(t, Ref{Measure: "overall_length"}, length.Ref)
	require.InDelta(t, 152.4, length.Limit, 1e-12)
	require.Equal(t, "at most 500 ft", length.LimitText())
	require.Equal(t, "openings counted in", length.Interpretation)
	require.Equal(t, "less than 500 ft", length.Interpretations[0].LimitText())
	require.Equal(t, "bank_length", length.Interpretations[1].Ref.Measure)
	require.Equal(t, Practice, length.Interpretations[1].Evidence)
	require.Equal(t, "the engineer", length.WaivableBy)
	require.Equal(t, "2026-11-25", length.Looked.Format(dayLayout))
	require.Equal(t, Greatest, standOff.Pick)
	require.Equal(t, "wetland_landward_edge", standOff.Others[0].Ref.Measure)
	require.Equal(t, Age{18, "18 months"}, standOff.Ref.MaxAge)
	require.Equal(t, standOff.Ref.MaxAge, standOff.Others[0].Ref.MaxAge)
	require.Equal(t, "the fill proposed is no", standOff.When[0].String())
	require.Equal(t, "the distance to wetlands is at most 30 ft", standOff.When[1].String())
	require.Equal(t, "the least of the crest height above mean high water and crest height above the wetland is at most 6 in", height.Demand.String())
	require.Equal(t, Ref{Measure: "openings_lacking", Opening: 1.524, Every: 30.48}, gaps.Ref)
	require.Equal(t, []string{"tyre", "asphalt"}, stuff.Words)
	require.True(t, stuff.Scope)
	require.True(t, stuff.IfStated)
	require.Equal(t, 63, book.Examples[0].Line)
}
