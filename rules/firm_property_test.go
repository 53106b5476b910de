package rules

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// doubtful has limits of every sort a doubt can bear on, and a place for limits that
// nobody has read on either of its paths.
const doubtful = `book: doubtful
title: A book for tests
authority: test
jurisdiction: Nowhere
edition: "1"
in_force: {from: null, until: null}
status: in force
caution: For tests only.
words: {material: [stone]}
paths:
  - id: exemption
    title: Exemption
    criteria:
      - {id: kind, measure: kind, any_of: [sill, reef], scope: true, evidence: practice}
      - {id: reach, measure: mhw_farthest, at_most: 10 ft, evidence: practice}
      - {id: grass, measure: seagrass_nearest, at_least: 50 ft, when: {measure: fetch, more_than: 100 ft}, evidence: practice}
      - {id: fill, measure: fill_proposed, is: "no", if_stated: true, evidence: practice}
    #exemption
  - id: general
    title: General permit
    criteria:
      - {id: reach, greatest_of: [mhw_farthest, mlw_farthest], at_most: 30 ft, waivable_by: the engineer, evidence: practice}
      - {id: length, measure: bank_length, less_than: 500 ft, waivable_by: the engineer, evidence: practice}
      - {id: material, measure: material, none_of: [tyre], evidence: practice}
    #general
  - {id: individual, title: Individual permit, criteria: []}
`

// doubtfulLimits are its limits, in feet.
var doubtfulLimits = map[string]float64{"mhw_farthest": 10, "mlw_farthest": 30, "seagrass_nearest": 50, "bank_length": 500, "fetch": 100}

// doubtfulWords are the words that its book knows of each measure.
var doubtfulWords = map[string][]string{"kind": {"sill", "reef", "dock"}, "material": {"stone", "tyre"}, "fill_proposed": {"no", "yes"}}

type doubted struct {
	table
	doubts []string
}

func (f doubted) Doubts() []string { return f.doubts }

// drawDoubted draws facts that would be exempt for sure but for some that are odd.
func drawDoubted(t *rapid.T) doubted {
	facts := doubted{table: table{}}
	if rapid.IntRange(0, 9).Draw(t, "doubt of all") == 0 {
		facts.doubts = []string{"another proposal lies on top of it"}
	}
	for name, ft := range map[string]float64{"mhw_farthest": 5, "mlw_farthest": 10, "seagrass_nearest": 90, "bank_length": 400, "fetch": 150} {
		facts.table[name] = Value{Number: ft * foot}
	}
	for name, words := range doubtfulWords {
		facts.table[name] = Value{Word: words[0]}
	}
	names := slices.Concat(slices.Sorted(maps.Keys(doubtfulLimits)), slices.Sorted(maps.Keys(doubtfulWords)))
	for _, name := range rapid.SliceOfNDistinct(rapid.SampledFrom(names), 0, len(names), rapid.ID).Draw(t, "odd") {
		if words := doubtfulWords[name]; words != nil {
			facts.table[name] = Value{Word: rapid.SampledFrom(append([]string{"", "something else"}, words...)).Draw(t, name)}
			continue
		}
		around := doubtfulLimits[name]
		ft := rapid.OneOf(rapid.Float64Range(around-8, around+8), rapid.SampledFrom([]float64{around - 150, around, around + 150}))
		v := Value{Number: ft.Draw(t, name) * foot, Accuracy: accuracies.Draw(t, name+" accuracy")}
		switch rapid.IntRange(0, 5).Draw(t, name+" sort") {
		case 0:
			v = Value{Unknown: "not mapped"}
		case 1:
			v.Bound = rapid.SampledFrom([]Bound{MoreThan, LessThan}).Draw(t, name+" bound")
		case 2:
			v.Doubts = []Doubt{{"it is old", rapid.SampledFrom([]float64{0, 1, 30}).Draw(t, name+" within")}}
		case 3:
			v.Also = []Also{{ft.Draw(t, name+" also") * foot, rapid.SampledFrom([]float64{0, 0.1, 3}).Draw(t, name+" shift"), "it faces two shores"}}
		}
		facts.table[name] = v
	}
	return facts
}

// settled are the facts as they may turn out to be once all that is doubted is known.
func settled(t *rapid.T, facts doubted) table {
	out := table{}
	anything := rapid.Float64Range(-200, 900)
	for _, name := range slices.Sorted(maps.Keys(facts.table)) {
		v := facts.table[name]
		if words := doubtfulWords[name]; words != nil {
			if !holds(words, v.Word) {
				v.Word = rapid.SampledFrom(words).Draw(t, name+" word")
			}
			out[name] = Value{Word: v.Word}
			continue
		}
		off := 0.0
		for _, a := range v.Accuracy {
			tolerance, unstated := a.Tolerance()
			if off = math.Max(off, tolerance); len(unstated) > 0 {
				off = UnstatedReach
			}
		}
		number := v.Number
		for _, also := range v.Also {
			if also.Shift < off && rapid.Bool().Draw(t, name+" is the other") {
				number, off = also.Number, 0
			}
		}
		for _, d := range v.Doubts {
			if off = math.Max(off, d.Within); d.Within == 0 {
				off = 1000 * foot
			}
		}
		number += rapid.SampledFrom([]float64{-1, -0.999, 0, 0.999, 1}).Draw(t, name+" off") * math.Nextafter(off, 0)
		switch {
		case v.Unknown != "":
			number = anything.Draw(t, name+" is") * foot
		case v.Bound == MoreThan:
			number += rapid.SampledFrom([]float64{0.01, 30, 900}).Draw(t, name+" more") * foot
		case v.Bound == LessThan:
			number -= rapid.SampledFrom([]float64{0.01, 30, 900}).Draw(t, name+" less") * foot
		}
		out[name] = Value{Number: number}
	}
	return out
}

// answer is the path and what must be waived.
func answer(d Decision) string { return fmt.Sprint(d.Path.ID, ids(d.Waiver)) }

// Nothing that is not known, or may be otherwise, can turn a firm decision: however
// it falls, also what nobody has read, the path and its waivers are the same.
func TestFirmIsNeverTurned(t *testing.T) {
	const unread = "unread: [{id: rest, says: its height, cite: Rule 4}]"
	plainBook := load(t, doubtful)
	closed := map[string]*Book{} // with a path that what nobody has read closes
	open := map[string]*Book{"": plainBook}
	for _, id := range []string{"exemption", "general"} {
		open[id] = load(t, strings.Replace(doubtful, "#"+id, unread, 1))
		shut := load(t, doubtful)
		for _, p := range shut.Paths {
			if p.ID == id {
				p.Criteria = append(p.Criteria, criterion(t, "stone_size", AtMost, "-1 ft"))
			}
		}
		closed[id] = shut
	}
	firm := map[string]int{}
	try := func(t *rapid.T) {
		id := rapid.SampledFrom([]string{"", "", "exemption", "general"}).Draw(t, "unread")
		facts := drawDoubted(t)
		d := open[id].Decide(facts)
		require.Equal(t, d.Certainty == NeedsInformation, len(d.Lacks) > 0, "what lacks is said")
		if d.Certainty != Firm {
			return
		}
		require.Empty(t, facts.doubts)
		require.NotEqual(t, id, d.Path.ID, "nobody knows that an unread limit is kept")
		firm[d.Path.ID]++
		for range 30 {
			truth := settled(t, facts)
			truth["stone_size"] = Value{Number: 1}
			require.Equal(t, answer(d), answer(plainBook.Decide(truth)), "%v", truth)
			if id != "" {
				require.Equal(t, answer(d), answer(closed[id].Decide(truth)), "%v", truth)
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		for range 20 { // firm decisions that a doubt could turn are rare
			try(t)
		}
	})
	for _, id := range []string{"exemption", "general", "individual"} {
		require.Positive(t, firm[id], id)
	}
}
