package job

import "io"

// Files opens the inputs of a run by the names the job gives them.
type Files interface {
	Open(name string) (io.ReadCloser, error)
	// List returns the files that a name stands for, in the order of their names: those of
	// a folder, those that a pattern matches, else the one of that name, whether it is there
	// or not. Others are files of a folder whose names end as none does that can be read.
	List(name string) (found, others []string, err error)
}
