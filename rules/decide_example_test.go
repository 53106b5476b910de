package rules_test

import (
	"fmt"
	"log"
	"math"
	"time"

	"waterward/rules"
)

// measured is a set of facts by measure.
type measured map[string]rules.Value

func (m measured) Measure(ref rules.Ref) rules.Value {
	if v, ok := m[ref.Measure]; ok {
		return v
	}
	return rules.Value{Unknown: ref.Measure + " was not measured"}
}

func (m measured) Doubts() []string { return nil }

func ExampleBook_Decide() {
	editions, err := rules.BuiltIn("us-federal")
	if err != nil {
		log.Fatal(err)
	}
	book, err := editions.On(time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC))
	if err != nil {
		log.Fatal(err)
	}
	d := book.Decide(measured{
		"mlw_farthest":        {Number: 10, Room: math.NaN()}, // metres, 32.8 ft
		"project_bank_length": {Number: 60},
		"kind":                {Word: "sill"},
	})
	fmt.Println(d.Path.Title, "-", d.Certainty)
	for _, r := range d.Waiver {
		fmt.Printf("%s waives %s, or %s\n", r.Criterion.WaivableBy, r.Criterion.ID, r.Change)
	}
	// Output:
	// Nationwide permit 54 - firm
	// the district engineer waives reach, or move 2.9 ft landward
}
