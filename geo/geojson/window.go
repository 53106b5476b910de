package geojson

import (
	"bytes"
	"io"
)

const (
	// windowSize is how much of a stream is read at once, in bytes: many features,
	// so that few are cut by its end, and no more than stays near the processor.
	windowSize = 256 << 10
	// mostEmptyReads is how often on end a stream may give nothing.
	mostEmptyReads = 100
	// mostSpare is how many times the room that is needed is kept for what comes
	// next: 16 MB, not all that one outsize feature took.
	mostSpare = 64
)

// window is what has been read of a stream and not been taken yet.
type window struct {
	in  io.Reader
	buf []byte // all of it, what has been taken too
	at  int    // from where on it has not been taken
	off int64  // where in the stream buf begins
	err error  // what ended the stream
}

// text is all of it; it holds until the next call of fill.
func (w *window) text() []byte { return w.buf[w.at:] }

func (w *window) drop(n int) { w.at += n }

// offset is how many bytes of the stream have been taken.
func (w *window) offset() int64 { return w.off + int64(w.at) }

// fill reads on until the window has n bytes, or says what ended the stream before.
func (w *window) fill(n int) error {
	have := len(w.buf) - w.at
	if have >= n {
		return nil
	}
	if w.err == nil {
		w.makeRoom(max(n, windowSize))
	}
	for empty := 0; w.err == nil && len(w.buf) < n; empty++ {
		if empty == mostEmptyReads {
			w.err = io.ErrNoProgress
			break
		}
		var got int
		got, w.err = w.in.Read(w.buf[len(w.buf):cap(w.buf)])
		if w.buf = w.buf[:len(w.buf)+got]; got > 0 {
			empty = -1
		}
	}
	if len(w.buf)-w.at < n {
		return w.err
	}
	return nil
}

// makeRoom moves what has not been taken to the front of a buffer of at least n bytes.
func (w *window) makeRoom(n int) {
	rest := w.buf[w.at:]
	if cap(w.buf) < n || cap(w.buf) > mostSpare*n {
		w.buf = make([]byte, 0, n)
	}
	w.buf = append(w.buf[:0], rest...)
	w.off += int64(w.at)
	w.at = 0
}

// begins reports whether the stream goes on with a mark.
func (w *window) begins(mark string) bool {
	w.fill(len(mark)) // what is shorter does not go on with it
	return bytes.HasPrefix(w.text(), []byte(mark))
}
