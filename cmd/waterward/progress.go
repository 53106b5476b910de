package main

import (
	"fmt"
	"io"
	"os"
	"time"

	"github.com/urfave/cli/v2"
)

// progressEvery is how often progress is shown anew.
const progressEvery = 200 * time.Millisecond

// progress shows on a terminal how far the work has come; nil where nobody looks.
func progress(c *cli.Context) func(done, of int) {
	file, ok := c.App.ErrWriter.(*os.File)
	if !ok || c.Bool("quiet") {
		return nil
	}
	if info, err := file.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return nil
	}
	return shown(file, time.Now)
}

// shown writes the count, the rate and the time left over one another. The rate is
// counted from the first call, when the layers have been read.
func shown(to io.Writer, now func() time.Time) func(done, of int) {
	var start, last time.Time
	return func(done, of int) {
		at := now()
		if start.IsZero() {
			start = at
		}
		if done < of && at.Sub(last) < progressEvery {
			return
		}
		last = at
		text := fmt.Sprintf("%d of %d", done, of)
		if seconds := at.Sub(start).Seconds(); seconds > 0 {
			rate := float64(done) / seconds
			text += fmt.Sprintf(", %.0f a second", rate)
			if done < of {
				text += fmt.Sprintf(", %v left", time.Duration(float64(of-done)/rate*float64(time.Second)).Round(time.Second))
			}
		}
		fmt.Fprintf(to, "\rwaterward: %-60s", text)
		if done == of {
			fmt.Fprintln(to)
		}
	}
}
