package geojson

import (
	"bytes"
	"encoding/json"
)

// Annotated returns the text of the feature with properties added behind its
// own. Every other byte stays as it was read; a property of the same name gives
// way to ours. A feature whose text is not JSON comes back without a geometry,
// its text kept in "unreadable_text".
func (f *Feature) Annotated(added []Member) []byte {
	if len(added) == 0 && f.readable {
		return bytes.Clone(f.raw)
	}
	if !f.readable {
		text, _ := json.Marshal(string(f.raw))
		added = append([]Member{{Key: "unreadable_text", Raw: text}}, added...)
		return append(append([]byte(`{"type":"Feature","geometry":null,"properties":`), object(added)...), '}')
	}
	all, _ := members(f.raw)
	for i := len(all) - 1; i >= 0; i-- { // of several, the last is what was read
		m := all[i]
		if m.Key != "properties" {
			continue
		}
		var properties []byte
		switch {
		case m.Raw[0] != '{' || len(f.properties) == 0:
			properties = object(added)
		case f.holdsAny(added):
			properties = object(append(f.without(added), added...))
		default:
			last := f.properties[len(f.properties)-1].end
			properties = append(append([]byte{}, m.Raw[:last]...), ',')
			properties = append(properties, object(added)[1:]...)
			properties = append(properties[:len(properties)-1], m.Raw[last:]...)
		}
		return splice(f.raw, m.start, m.end, properties)
	}
	end := bytes.LastIndexByte(f.raw, '}')
	name := []byte(`,"properties":`)
	if len(all) == 0 {
		name = name[1:]
	}
	return splice(f.raw, end, end, append(name, object(added)...))
}

func splice(text []byte, from, to int, with []byte) []byte {
	out := make([]byte, 0, len(text)+len(with))
	out = append(out, text[:from]...)
	out = append(out, with...)
	return append(out, text[to:]...)
}

func (f *Feature) holdsAny(added []Member) bool {
	return len(f.without(added)) < len(f.properties)
}

func (f *Feature) without(added []Member) []Member {
	ours := make(map[string]bool, len(added))
	for _, m := range added {
		ours[m.Key] = true
	}
	var kept []Member
	for _, m := range f.properties {
		if !ours[m.Key] {
			kept = append(kept, m)
		}
	}
	return kept
}

// object writes members as one JSON object.
func object(all []Member) []byte {
	out := []byte{'{'}
	for i, m := range all {
		if i > 0 {
			out = append(out, ',')
		}
		key, _ := json.Marshal(m.Key)
		out = append(append(append(out, key...), ':'), m.Raw...)
	}
	return append(out, '}')
}
