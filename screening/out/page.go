package out

import "io"

// Page is a file that is written when all results are known.
type Page[R any] struct {
	Name   string
	Take   func(R) (put func()) // as Prepare
	Render func(io.Writer) error

	file *File
}

func (p *Page[R]) open(files *files) (err error) {
	p.file, err = files.create(p.Name)
	return err
}

func (p *Page[R]) Prepare(result R) func() { return p.Take(result) }

func (p *Page[R]) Finish() {
	if err := p.Render(p.file); p.file.fault == nil {
		p.file.fault = err
	}
}
