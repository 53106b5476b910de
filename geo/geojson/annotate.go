package geojson

import (
	"bytes"
	"encoding/json"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"waterward/geo/text"
)

// keptAs stands behind the name of a property that would otherwise have the name of ours.
const keptAs = "_given"

// Annotated returns the text of the feature with properties added behind its own. Every
// other byte stays as it was read, but that a property of the same name as one of ours, in
// any case, as databases compare them, is kept under another; renamed are the names of those.
// A feature whose text is not JSON comes back without a geometry, its text kept in
// "unreadable_text".
func (f *Feature) Annotated(added []Member) (annotated []byte, renamed []string) {
	if len(added) == 0 && f.readable {
		return bytes.Clone(f.raw), nil
	}
	if !f.readable {
		unread, _ := json.Marshal(string(f.raw))
		added = append([]Member{{Key: "unreadable_text", Raw: text.JSON(unread)}}, added...)
		return append(append([]byte(`{"type":"Feature","geometry":null,"properties":`), object(added)...), '}'), nil
	}
	all, _ := members(f.raw)
	for i := len(all) - 1; i >= 0; i-- { // of several, the last is what was read
		m := all[i]
		if m.Key != "properties" {
			continue
		}
		properties := object(added)
		if m.Raw[0] == '{' && len(f.properties) > 0 {
			var own []byte
			own, renamed = f.besides(m.Raw, added)
			end := len(bytes.TrimRight(own[:len(own)-1], " \t\r\n"))
			properties = splice(own, end, end, append([]byte{','}, properties[1:len(properties)-1]...))
		}
		return splice(f.raw, m.start, m.end, properties), renamed
	}
	end := bytes.LastIndexByte(f.raw, '}')
	name := []byte(`,"properties":`)
	if len(all) == 0 {
		name = name[1:]
	}
	return splice(f.raw, end, end, append(name, object(added)...)), nil
}

// besides returns the text of the feature's properties without a name of those to be added,
// and which of their names gave way.
func (f *Feature) besides(properties []byte, added []Member) (own []byte, renamed []string) {
	taken := make(map[string]bool, len(added)+len(f.properties))
	for _, m := range added {
		taken[folded(m.Key)] = true
	}
	var equal []int
	for i, m := range f.properties {
		if taken[folded(m.Key)] {
			equal = append(equal, i)
		}
	}
	if equal == nil {
		return properties, nil
	}
	for _, m := range f.properties {
		taken[folded(m.Key)] = true
	}
	from := 0
	for _, i := range equal {
		m := f.properties[i]
		behind := givesWay(m.Key, taken)
		renamed = append(renamed, m.Key)
		quote := bytes.LastIndexByte(properties[:m.start], '"') // the name's last
		own = append(append(own, properties[from:quote]...), behind...)
		from = quote
	}
	return append(own, properties[from:]...), renamed
}

// givesWay is what stands behind a name that is taken, so that no other is like it.
func givesWay(name string, taken map[string]bool) string {
	behind := keptAs
	for n := 2; taken[folded(name+behind)]; n++ {
		behind = keptAs + "_" + strconv.Itoa(n)
	}
	taken[folded(name+behind)] = true
	return behind
}

// Besides are names of an input as they stand beside names of ours: one that is the same as
// one of these, in any case, is kept under another, as [Feature.Annotated] has it.
func Besides(names, ours []string) []string {
	taken := map[string]bool{}
	for _, name := range slices.Concat(names, ours) {
		taken[folded(name)] = true
	}
	kept := slices.Clone(names)
	for i, name := range kept {
		if slices.ContainsFunc(ours, func(own string) bool { return folded(own) == folded(name) }) {
			kept[i] += givesWay(name, taken)
		}
	}
	return kept
}

// folded is a name without its case (simple folding, Unicode chapter 5.18): the least of the
// characters that differ in nothing else.
func folded(name string) string {
	return strings.Map(func(c rune) rune {
		least := c
		for other := unicode.SimpleFold(c); other != c; other = unicode.SimpleFold(other) {
			least = min(least, other)
		}
		return least
	}, name)
}

func splice(text []byte, from, to int, with []byte) []byte {
	out := make([]byte, 0, len(text)+len(with))
	out = append(out, text[:from]...)
	out = append(out, with...)
	return append(out, text[to:]...)
}

// object writes members as one JSON object.
func object(all []Member) []byte {
	out := []byte{'{'}
	for i, m := range all {
		if i > 0 {
			out = append(out, ',')
		}
		out = append(append(append(out, m.Name()...), ':'), m.Raw...)
	}
	return append(out, '}')
}
