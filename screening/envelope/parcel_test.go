package envelope

import (
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/rules"
)

// A parcel of two fronts: of the one it is known that nothing meets every easiest path, of the
// other it is not. Of the parcel it is not known; what is said of the first stays.
func TestAParcelOfAFrontThatIsNotKnown(t *testing.T) {
	e := &Search{}
	some := &Candidate{}
	closed := &Outcome{Joint: Joint{Known: true, Certainty: rules.Firm, Beyond: []int{0}, Candidate: some, Longest: 10}}
	open := &Outcome{Joint: Joint{Certainty: rules.NeedsInformation, Beyond: []int{0, 1}, Candidate: some}}
	for _, fronts := range [][]*Outcome{{closed, open}, {open, closed}} {
		r := &Result{Fronts: fronts}
		e.gather(r)
		require.False(t, r.Joint.Known)
		require.Equal(t, rules.NeedsInformation, r.Joint.Certainty)
		require.True(t, closed.Joint.Known)
		require.Equal(t, rules.Firm, closed.Joint.Certainty)
	}
}
