package geojson

import (
	"errors"
	"fmt"
	"io"

	"waterward/geo/text"
)

// mostUnusable is how many features of a file may be unusable: each is kept, to be
// named, and a file with so many is not what it was taken for.
const mostUnusable = 1_000_000

// FileError says that a file as a whole cannot be read as GeoJSON.
type FileError struct {
	File  string
	Wrong string
}

func (e *FileError) Error() string { return text.Visible(e.File) + ": " + e.Wrong }

// FeatureError says what is wrong with one feature, for the person who can
// mend the file.
type FeatureError struct {
	File   string
	Number int // from 1
	ID     string
	Wrong  string
	Remedy string
}

func (e *FeatureError) Error() string {
	id := ""
	if e.ID != "" {
		id = fmt.Sprintf(" (id %s)", shown(e.ID))
	}
	return fmt.Sprintf("%s: feature %d%s: %s; %s", text.Visible(e.File), e.Number, id, e.Wrong, e.Remedy)
}

// shownID is how much of an id a message shows, in characters.
const shownID = 60

// shown is an id as a message shows it: on one line, and not all of a long one.
func shown(id string) string {
	if runes := []rune(id); len(runes) > shownID {
		id = string(runes[:shownID]) + "..."
	}
	return text.Visible(id)
}

// notValid is the message given, unless it is the end of the file that broke
// the JSON off.
func (r *Reader) notValid(message string) string {
	switch _, err := r.scan.peek(); {
	case err == io.EOF || err == io.ErrUnexpectedEOF:
		return r.cutMessage()
	case err == errTooLong:
		return r.longMessage()
	}
	return message
}

func (r *Reader) cutMessage() string {
	return fmt.Sprintf("the file ends in the middle, after feature %d; it may have been cut short on its way here, so get it again", r.count)
}

func (r *Reader) longMessage() string {
	return fmt.Sprintf("what follows feature %d is longer than the %d MB that can be held; if no quote or bracket is missing there, split it", r.count, r.scan.most>>20)
}

// brokeOff reports whether a text of a sequence, not the file, is what err
// complains of, and goes on to the next text.
func (r *Reader) brokeOff(err error) bool {
	if err == nil || !r.texts {
		return false
	}
	for {
		c, err := r.scan.peek()
		if err != nil {
			return false
		}
		if c == recordSeparator {
			r.inArray = false
			return true
		}
		r.scan.take(1)
	}
}

// ioError turns an end in the middle into a message; io.EOF stays itself only
// between texts.
func (r *Reader) ioError(err error) error {
	switch {
	case err == io.EOF && !r.inArray && !r.scan.taping:
		return io.EOF
	case err == io.EOF || err == io.ErrUnexpectedEOF:
		return &FileError{r.file, r.cutMessage()}
	case errors.Is(err, errTooLong):
		return &FileError{r.file, r.longMessage()}
	case errors.Is(err, errManyMembers):
		return &FileError{r.file, fmt.Sprintf("behind feature %d stands %v", r.count, err)}
	case errors.Is(err, errTextEnds):
		return &FileError{r.file, "holds a record separator (0x1E) in the middle of a text"}
	}
	return &FileError{r.file, "cannot be read: " + err.Error() + "; get it again"}
}

// cutShort returns a sequence text that broke off as a feature that cannot be
// used; the next text is read as if nothing had happened (RFC 8142, section 2.4).
func (r *Reader) cutShort() (*Feature, error) {
	r.count++
	f := &Feature{Number: r.count, raw: r.scan.tape, crs: r.CRS()}
	f.fail(r.file, "its text ends in the middle", "write the feature again")
	return r.counted(f)
}

// counted counts a feature that cannot be used; one too many ends the file.
func (r *Reader) counted(f *Feature) (*Feature, error) {
	if f.Err == nil {
		return f, nil
	}
	if r.unusable++; r.unusable > mostUnusable {
		r.scan.err = &FileError{r.file, fmt.Sprintf("more than %d of its features cannot be used, such as feature %d: %s", mostUnusable, f.Number, f.Err.Wrong)}
		return nil, r.scan.err
	}
	return f, nil
}
