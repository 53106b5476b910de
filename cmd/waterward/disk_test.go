package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// outputs are the files of a run.
var outputs = []string{"proposals.geojson", "measured.geojson", "setbacks.geojson", "summary.csv", "criteria.csv", "run.json"}

// oldOutputs is a folder with the outputs of an earlier run.
func oldOutputs(t *testing.T) string {
	out := t.TempDir()
	for _, name := range outputs {
		require.NoError(t, os.WriteFile(filepath.Join(out, name), []byte("old "+name), 0o666))
	}
	return out
}

// untouched: they are there still, and nothing else is.
func untouched(t *testing.T, out string) {
	there, err := os.ReadDir(out)
	require.NoError(t, err)
	require.Len(t, there, len(outputs))
	for _, name := range outputs {
		text, err := os.ReadFile(filepath.Join(out, name))
		require.NoError(t, err)
		require.Equal(t, "old "+name, string(text))
	}
}

// TestAFullDisk: whichever output does not find room, the command ends with 1, says
// which and what to do, and leaves what was there. /dev/full has never room.
func TestAFullDisk(t *testing.T) {
	for _, full := range outputs {
		out := oldOutputs(t)
		s, err := newStaging(out, "screen", true)
		require.NoError(t, err)
		require.NoError(t, os.Symlink("/dev/full", s.temporary(full)))
		var written error
		for _, name := range outputs {
			var to io.WriteCloser
			if to, written = s.Create(name); written == nil {
				_, written = to.Write([]byte("new"))
				to.Close()
			}
			if written != nil {
				require.Equal(t, full, name)
				break
			}
		}
		s.discard()
		var said bytes.Buffer
		require.Equal(t, exitNoResult, finish(written, &said))
		require.Equal(t, "waterward: "+filepath.Join(out, full)+" cannot be written: no space left on device; make room there or give another folder by --out (outputs of earlier runs are as they were)\n", said.String())
		untouched(t, out)
	}
}

// TestOutputsThatCannotBePutInPlace: whichever it is, those before it give way to
// the old ones again.
func TestOutputsThatCannotBePutInPlace(t *testing.T) {
	for _, lost := range outputs {
		out := oldOutputs(t)
		s, err := newStaging(out, "screen", true)
		require.NoError(t, err)
		for _, name := range outputs {
			to, err := s.Create(name)
			require.NoError(t, err)
			require.NoError(t, to.Close())
		}
		require.NoError(t, os.Remove(s.temporary(lost)))
		err = s.commit()
		s.discard()
		require.ErrorContains(t, err, lost+" cannot be put in place")
		untouched(t, out)
	}
}

// TestNoRoomForTheJournal: nothing is moved before it is written.
func TestNoRoomForTheJournal(t *testing.T) {
	out := oldOutputs(t)
	s, err := newStaging(out, "screen", true)
	require.NoError(t, err)
	for _, name := range outputs {
		to, err := s.Create(name)
		require.NoError(t, err)
		require.NoError(t, to.Close())
	}
	require.NoError(t, os.Symlink("/dev/full", s.within(journalDraft)))
	var said bytes.Buffer
	require.Equal(t, exitNoResult, finish(s.commit(), &said))
	s.discard()
	require.Contains(t, said.String(), "waterward: the output folder "+out+" cannot be written: ")
	require.Contains(t, said.String(), "no space left on device")
	untouched(t, out)
}

// TestStandardOutputIsFull: what is asked for and cannot be printed is no success.
func TestStandardOutputIsFull(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	require.NoError(t, err)
	defer full.Close()
	for _, command := range []string{
		"inspect ../../testdata/marrowby/mhw.geojson", "inspect --json ../../testdata/marrowby/mhw.geojson",
		"inspect --job ../../testdata/marrowby/job.yaml", "inspect --write-job ../../testdata/marrowby",
		"rules list", "rules show us-federal", "rules check us-federal", "rules diff us-federal@2017 us-federal@2026",
	} {
		var said bytes.Buffer
		require.Equal(t, exitNoResult, run(t.Context(), append([]string{"waterward"}, strings.Fields(command)...), strings.NewReader(""), full, &said), command)
		require.Contains(t, said.String(), "no space left", command)
	}
}
