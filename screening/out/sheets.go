package out

import (
	"cmp"
	"fmt"
	"io"
	"strings"
)

// Sheets are files of one result each, of those results that have one.
type Sheets[R any] struct {
	Name func(R) string                        // asked in the order of the results
	Take func(R) (write func(io.Writer) error) // as Prepare; nil: none

	files *files
}

func (s *Sheets[R]) open(files *files) error {
	s.files = files
	return nil
}

func (s *Sheets[R]) Prepare(result R) func() {
	write := s.Take(result)
	if write == nil {
		return func() {}
	}
	var made strings.Builder // several workers draw at once
	fault := write(&made)
	return func() {
		file, err := s.files.create(s.Name(result))
		if err != nil {
			s.files.lost = cmp.Or(s.files.lost, err)
			return
		}
		io.WriteString(file, made.String())
		file.fault = cmp.Or(file.fault, fault, file.close())
	}
}

func (s *Sheets[R]) Finish() {}

// FileNames gives files names by ids, such as every system takes: no two alike, whatever the
// case of their letters.
type FileNames map[string]bool

// longestName is how many characters of an id a name keeps; some systems take 255 bytes for
// a whole path.
const longestName = 60

// Of is a name for an id.
func (n FileNames) Of(id string) string {
	var b strings.Builder
	for _, r := range id {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '.' && b.Len() > 0:
			b.WriteRune(r)
		default:
			b.WriteByte('_')
		}
		if b.Len() == longestName {
			break
		}
	}
	name := strings.TrimRight(b.String(), ".")
	if name == "" || reserved(name) {
		name = "_" + name
	}
	for i, first := 2, name; n[strings.ToLower(name)]; i++ {
		name = fmt.Sprintf("%s-%d", first, i)
	}
	n[strings.ToLower(name)] = true
	return name
}

// reserved reports whether a system has a device of that name.
func reserved(name string) bool {
	base, _, _ := strings.Cut(strings.ToUpper(name), ".")
	switch base {
	case "CON", "PRN", "AUX", "NUL":
		return true
	}
	return len(base) == 4 && (strings.HasPrefix(base, "COM") || strings.HasPrefix(base, "LPT")) && base[3] >= '0' && base[3] <= '9'
}
