package job

import (
	"fmt"
	"strings"

	"waterward/rules"
)

// NoProperty is the error of a property that the job names and no feature of some files has.
// why says what it is for; names are the properties that there are.
func NoProperty(layer, files, property, why string, names []string) *Error {
	text := fmt.Sprintf("%s: no feature of %s has the property %s, %s", layer, files, property, why)
	if near := rules.Nearest(property, names); near != "" {
		text += fmt.Sprintf(" (did you mean %s?)", near)
	}
	return &Error{text + "; there are " + strings.Join(names, ", ")}
}

// MostNames is how many different properties of a file are kept to be told; few files have
// more.
const MostNames = 200
