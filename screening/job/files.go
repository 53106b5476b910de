package job

import "io"

// Files opens the inputs of a run by the names the job gives them.
type Files interface {
	Open(name string) (io.ReadCloser, error)
}
