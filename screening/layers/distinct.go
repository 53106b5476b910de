package layers

import "strconv"

// repeated is an item whose label others have too.
type repeated struct {
	name string // that no other has
	of   int    // items of that label
}

// again is what of an item's label is repeated, found when it is first asked for.
func (l *Layer) again(item int) (repeated, bool) {
	l.counted.Do(l.distinguish)
	r, is := l.repeated[item]
	return r, is
}

// distinguish gives names of their own to the items that have the label of another: A12,
// A12#2, A12#3, in order.
func (l *Layer) distinguish() {
	count := map[string]int{}
	for _, it := range l.Items {
		count[it.Label]++
	}
	l.repeated = map[int]repeated{}
	next := map[string]int{}
	for i, it := range l.Items {
		all := count[it.Label]
		if all == 1 {
			continue
		}
		name := it.Label
		for next[it.Label]++; next[it.Label] > 1; next[it.Label]++ {
			name = it.Label + "#" + strconv.Itoa(next[it.Label])
			if count[name] == 0 {
				break
			}
		}
		l.repeated[i] = repeated{name, all}
	}
}

// Distinct is the label of an item, with #2, #3 ... behind it where earlier ones have the
// same: no two are alike.
func (l *Layer) Distinct(item int) string {
	if r, is := l.again(item); is {
		return r.name
	}
	return l.Items[item].Label
}

// Alike is how many items have the label of one, itself included.
func (l *Layer) Alike(item int) int {
	r, _ := l.again(item)
	return max(1, r.of)
}
