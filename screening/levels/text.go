package levels

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"waterward/geo/text"
)

// mostText is how long a file of water levels may be, in bytes: 40 years every six minutes
// are half of it.
const mostText = 256 << 20

// ReadText reads a whole file of water levels, without its byte order mark if it has one,
// but nothing endless.
func ReadText(r io.Reader) ([]byte, error) {
	page, err := io.ReadAll(io.LimitReader(r, mostText+1))
	if err != nil {
		return nil, fmt.Errorf("cannot be read: %w", err)
	}
	if len(page) > mostText {
		return nil, fmt.Errorf("it is larger than %d MB; give a part of it", mostText>>20)
	}
	if wrong := text.Fault(page); wrong != "" {
		return nil, errors.New(wrong)
	}
	return bytes.TrimPrefix(page, []byte("\ufeff")), nil
}

// IsJSON reports whether a text is meant as JSON, not as a table.
func IsJSON(text []byte) bool { return bytes.HasPrefix(bytes.TrimSpace(text), []byte("{")) }
