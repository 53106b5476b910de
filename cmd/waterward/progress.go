package main

import (
	"fmt"
	"io"
	"os"
	"strconv"
	"sync"
	"time"

	"github.com/urfave/cli/v2"

	"waterward/screening"
)

const (
	// shownEvery is how often progress is shown anew on a terminal.
	shownEvery = 200 * time.Millisecond
	// saidEvery is how often a line of progress is written where no terminal is: a log that
	// somebody waits for is read that often.
	saidEvery = 10 * time.Second
)

// progress tells on standard error how far the work has come: on a terminal in one line
// that is written over, elsewhere in a line every 10 seconds.
type progress struct {
	to       io.Writer
	things   string // that are counted
	terminal bool
	now      func() time.Time

	mu       sync.Mutex
	said     time.Time // when something was last written, or the work began
	begun    time.Time // when what is counted began
	doing    string    // before there are results
	count    int
	of       int
	unbroken bool // the line of the terminal is still to be ended
}

// follow begins to tell of the progress of things, until stop; nil where nobody is to be
// told.
func follow(c *cli.Context, things string) (told screening.Progress, stop func()) {
	file, ok := c.App.ErrWriter.(*os.File)
	if !ok || c.Bool("quiet") {
		return nil, func() {}
	}
	info, err := file.Stat()
	p := newProgress(file, things, err == nil && info.Mode()&os.ModeCharDevice != 0, time.Now)
	ticks := time.NewTicker(shownEvery)
	done := make(chan struct{})
	var ended sync.WaitGroup
	ended.Go(func() {
		for {
			select {
			case <-ticks.C:
				p.tick()
			case <-done:
				return
			}
		}
	})
	return p, func() {
		ticks.Stop()
		close(done)
		ended.Wait()
		p.end()
	}
}

func newProgress(to io.Writer, things string, terminal bool, now func() time.Time) *progress {
	return &progress{to: to, things: things, terminal: terminal, now: now, said: now()}
}

// Doing is told what goes on before there are results.
func (p *progress) Doing(what string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.doing, p.of = what, 0
}

// Done is told how many results there are. The rate is counted from the first call, when
// all has been read.
func (p *progress) Done(count, of int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.of == 0 {
		p.begun = p.now()
	}
	p.doing, p.count, p.of = "", count, of
	if count == of && p.terminal {
		p.write()
	}
}

// tick writes where the work is, if it is time to.
func (p *progress) tick() {
	p.mu.Lock()
	defer p.mu.Unlock()
	every := saidEvery
	if p.terminal && p.of > 0 {
		every = shownEvery
	}
	if p.now().Sub(p.said) >= every && p.text() != "" {
		p.write()
	}
}

// end ends the line of a terminal.
func (p *progress) end() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.unbroken {
		fmt.Fprintln(p.to)
		p.unbroken = false
	}
}

func (p *progress) write() {
	p.said = p.now()
	if p.terminal {
		fmt.Fprintf(p.to, "\rwaterward: %-70s", p.text())
		p.unbroken = true
	} else {
		fmt.Fprintf(p.to, "waterward: %s\n", p.text())
	}
}

// text is where the work is: "1,200 of 38,000 parcels, 240 a second, 2 min 33 s left".
func (p *progress) text() string {
	if p.of == 0 {
		return p.doing
	}
	text := grouped(p.count) + " of " + grouped(p.of) + " " + p.things
	if seconds := p.now().Sub(p.begun).Seconds(); seconds > 0 && p.count > 0 {
		rate := float64(p.count) / seconds
		text += ", " + rateText(rate)
		if p.count < p.of {
			text += ", " + span(float64(p.of-p.count)/rate) + " left"
		}
	}
	return text
}

// rateText is a rate by the second, or by the minute if that is slow.
func rateText(perSecond float64) string {
	if perSecond < 1 {
		return fmt.Sprintf("%.0f a minute", perSecond*60)
	}
	return grouped(int(perSecond+0.5)) + " a second"
}

// span is a time in words: "45 s", "2 min 33 s", "1 h 5 min".
func span(seconds float64) string {
	s := int(seconds + 0.5)
	switch {
	case s < 60:
		return fmt.Sprintf("%d s", s)
	case s < 3600:
		return fmt.Sprintf("%d min %d s", s/60, s%60)
	}
	return fmt.Sprintf("%d h %d min", s/3600, s%3600/60)
}

// grouped is a count with a comma between thousands.
func grouped(n int) string {
	text := strconv.Itoa(n)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}
