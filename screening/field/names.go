package field

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// longestName is how many characters of a waypoint's name a handheld receiver shows, or
// takes at all (from memory; GPX itself sets no limit).
const longestName = 12

// short is the name of a point without blanks, as a waypoint has it behind that of its
// proposal.
func (p *Point) short() string { return strings.ReplaceAll(p.Name, " ", "") }

// shortNames are names of the sites, no two alike in any case of letters, that leave room
// for those of their points: the id, or its end, in which application numbers differ, else
// its number among the sites.
func shortNames(sites []*Site) []string {
	taken := map[string]bool{}
	made := make([]string, len(sites))
	take := func(i int, name string) bool {
		key := strings.ToUpper(name)
		if name == "" || taken[key] {
			return false
		}
		taken[key] = true
		made[i] = name
		return true
	}
	room := make([]int, len(sites))
	for i, s := range sites { // whoever keeps its whole id comes first
		longest := 0
		for _, p := range s.Points {
			longest = max(longest, utf8.RuneCountInString(p.short()))
		}
		room[i] = longestName - 1 - longest
		if id := shown(s.ID); utf8.RuneCountInString(id) <= room[i] {
			take(i, id)
		}
	}
	for i, s := range sites {
		if made[i] != "" {
			continue
		}
		id := []rune(shown(s.ID))
		if end := string(id[max(0, len(id)-max(0, room[i])):]); take(i, strings.TrimSpace(end)) {
			continue
		}
		for n := i + 1; !take(i, fmt.Sprintf("#%d", n)); n++ {
		}
	}
	return made
}
