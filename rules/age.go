package rules

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"
)

// Age is how old data may be for a firm result; its zero value is unstated.
type Age struct {
	Months int
	text   string
}

// ageForm is how an age is written; no map is older than three digits can say.
var ageForm = regexp.MustCompile(`^([1-9][0-9]{0,2}) (year|month)s?$`)

// ParseAge reads "5 years" or "18 months".
func ParseAge(text string) (Age, error) {
	text = strings.Join(strings.Fields(text), " ")
	parts := ageForm.FindStringSubmatch(text)
	if parts == nil {
		return Age{}, fmt.Errorf(`%.40q is no age; write it as "5 years" or "18 months"`, text)
	}
	months, err := strconv.Atoi(parts[1])
	if parts[2] == "year" {
		months *= 12
	}
	return Age{months, text}, err
}

// Years is an age of whole years.
func Years(n int) Age { return Age{12 * n, fmt.Sprintf("%d years", n)} }

// UnmarshalYAML reads the age of a job file.
func (a *Age) UnmarshalYAML(node *yaml.Node) error {
	var err error
	*a, err = ParseAge(node.Value)
	return err
}

// String is the age as it was written.
func (a Age) String() string { return a.text }

// Stricter is the lesser of two ages, of which either may be unstated.
func (a Age) Stricter(b Age) Age {
	if a.Months == 0 || b.Months != 0 && b.Months < a.Months {
		return b
	}
	return a
}
