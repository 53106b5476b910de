package geojson

import (
	"encoding/json"
	"errors"
	"fmt"

	"waterward/geo/text"
)

// Member is one member of a JSON object, its value as it was written.
type Member struct {
	Key string
	Raw json.RawMessage
	// start and end are where Raw lies in the object's text.
	start, end int
	name       []byte // the key as written, of a member beside the features
}

// Name is the key as it was written, or as JSON has it.
func (m Member) Name() []byte {
	if m.name != nil {
		return m.name
	}
	name, _ := json.Marshal(m.Key)
	return text.JSON(name)
}

// mostMembers is how many members of one object are read. No table has so many
// columns, and each takes ten times its text.
const mostMembers = 1_000_000

var (
	errNoObject    = errors.New("not a JSON object")
	errManyMembers = fmt.Errorf("an object of more than %d members", mostMembers)
	errLongName    = fmt.Errorf("an object with a name of more than %d bytes", LongestText)
)

// members splits the text of one valid JSON object into its members, in order.
func members(object []byte) ([]Member, error) {
	if len(object) == 0 || object[0] != '{' {
		return nil, errNoObject
	}
	var out []Member
	i := skipSpace(object, 1)
	for i < len(object) && object[i] != '}' {
		keyEnd := valueEnd(object, i)
		var key string
		if err := json.Unmarshal(object[i:keyEnd], &key); err != nil {
			return nil, err
		}
		switch {
		case len(out) == mostMembers:
			return nil, errManyMembers
		case keyEnd-i > LongestText:
			return nil, errLongName
		}
		i = skipSpace(object, skipSpace(object, keyEnd)+1) // past the colon
		end := valueEnd(object, i)
		out = append(out, Member{Key: key, Raw: object[i:end], start: i, end: end})
		i = skipSpace(object, end)
		if i < len(object) && object[i] == ',' {
			i = skipSpace(object, i+1)
		}
	}
	return out, nil
}

func skipSpace(b []byte, i int) int {
	for i < len(b) && (b[i] == ' ' || b[i] == '\t' || b[i] == '\r' || b[i] == '\n') {
		i++
	}
	return i
}

// valueEnd returns where the value starting at i ends, in valid JSON.
func valueEnd(b []byte, i int) int {
	if i < len(b) && (b[i] == '{' || b[i] == '[' || b[i] == '"') {
		n, _ := new(nesting).over(b[i:])
		return i + n
	}
	return bareEnd(b, i)
}
