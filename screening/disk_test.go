package screening

import (
	"io"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/job"
	"waterward/screening/out"
	"waterward/screening/sketchtest"
)

// disk takes so many bytes and then is full; of one output, if so named, and any
// number of the others. An output whose name is refuses or
// loses cannot be created, or is found not to have been written when it is closed,
// as a file system over a network may.
type disk struct {
	room               int
	of, refuses, loses string
}

type diskFile struct {
	on   *disk
	name string
}

func (d *disk) Create(name string) (io.WriteCloser, error) {
	if name == d.refuses {
		return nil, syscall.ENOSPC
	}
	return diskFile{d, name}, nil
}

func (f diskFile) Write(p []byte) (int, error) {
	if f.on.of != "" && f.on.of != f.name {
		return len(p), nil
	}
	if len(p) > f.on.room {
		n := f.on.room
		f.on.room = 0
		return n, syscall.ENOSPC
	}
	f.on.room -= len(p)
	return len(p), nil
}

func (f diskFile) Close() error {
	if f.name == f.on.loses {
		return syscall.ENOSPC
	}
	return nil
}

// TestAFullDiskIsAnError, wherever among the outputs it fills up: a run that lost
// a byte must not pass for done.
func TestAFullDiskIsAnError(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	screen := func(to out.Outputs) error {
		j := &job.Job{Books: []string{"us-fl-state"}, Proposals: job.ProposalSources{{Files: job.FileList{"proposals"}}}}
		var err error
		j.DecisionDate, err = job.ParseDay("2026-11-25")
		require.NoError(t, err)
		j.Layers.HighWater = &job.LayerSource{Files: job.FileList{"high"}}
		j.Layers.LowWater = &job.LayerSource{Files: job.FileList{"low"}}
		_, err = Run(t.Context(), j, s, to, Options{Workers: 1})
		return err
	}
	whole := sketchtest.Memory{}
	require.NoError(t, screen(whole))
	require.Len(t, whole, 9)
	bytes := 0
	for _, text := range whole {
		bytes += text.Len()
	}
	require.NoError(t, screen(&disk{room: bytes}))
	for room := 0; room < bytes; room += bytes / 50 {
		require.ErrorIs(t, screen(&disk{room: room}), syscall.ENOSPC, "room for %d of %d", room, bytes)
	}
	require.ErrorIs(t, screen(&disk{room: bytes - 1}), syscall.ENOSPC)
	for name, text := range whole {
		require.NoError(t, screen(&disk{of: name, room: text.Len()}), name)
		for _, room := range []int{0, text.Len() / 2, text.Len() - 1} {
			require.ErrorIs(t, screen(&disk{of: name, room: room}), syscall.ENOSPC, "room for %d of %s", room, name)
		}
		require.ErrorIs(t, screen(&disk{room: bytes, refuses: name}), syscall.ENOSPC, name)
		require.ErrorIs(t, screen(&disk{room: bytes, loses: name}), syscall.ENOSPC, name)
	}
}
