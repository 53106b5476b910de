package main

import (
	"bytes"
	"compress/gzip"
	"encoding/csv"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"
)

// TestMain lets the stories run the command itself: the test binary stands in
// for waterward.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"waterward": main, "dies": dies})
}

// TestStories runs the command as people do, a story a file. Each has a copy of
// the demo county at $DEMO, so that a story may also spoil it.
func TestStories(t *testing.T) {
	demo, err := filepath.Abs("../../testdata/marrowby")
	require.NoError(t, err)
	testscript.Run(t, testscript.Params{
		Dir: "../../testdata/stories",
		Setup: func(env *testscript.Env) error {
			there := filepath.Join(env.WorkDir, "demo")
			env.Setenv("DEMO", there)
			return os.CopyFS(there, os.DirFS(demo))
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits, "cell": cell, "rows": rows, "pack": pack,
		},
		RequireUniqueNames: true,
	})
}

// exits CODE COMMAND...: the command ends with that very exit code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	switch err := ts.Exec(args[1], args[2:]...).(type) {
	case nil:
	case *exec.ExitError:
		got = err.ExitCode()
	default:
		ts.Check(err)
	}
	if text := ts.ReadFile("stderr"); strings.Contains(text, "goroutine ") {
		ts.Fatalf("it panicked:\n%.2000s", text)
	}
	if got != want {
		ts.Fatalf("it ended with %d, not with %d", got, want)
	}
}

func table(ts *testscript.TestScript, name string) (header []string, body [][]string) {
	all, err := csv.NewReader(strings.NewReader(ts.ReadFile(name))).ReadAll()
	ts.Check(err)
	if len(all) == 0 {
		ts.Fatalf("%s has no header", name)
	}
	return all[0], all[1:]
}

// cell FILE KEY COLUMN WANT: in every row that the key picks the column reads
// so. A key is an id, or id/authority/path/criterion in criteria.csv, where the
// row of another interpretation is id/authority/path/criterion/INTERPRETATION, or
// id/authority in requests.csv, whose rows read as one, parted by " | "; with "!" no such row
// reads so; a WANT of ~TEXT is held by the cell.
func cell(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 4 {
		ts.Fatalf("usage: [!] cell FILE KEY COLUMN WANT")
	}
	header, body := table(ts, args[0])
	column := func(name string) int {
		for i, h := range header {
			if h == name {
				return i
			}
		}
		if filepath.Base(args[0]) == "measures.csv" { // which leaves out what no row fills
			header = append(header, name)
			for i := range body {
				body[i] = append(body[i], "")
			}
			return len(header) - 1
		}
		ts.Fatalf("%s has no column %s", args[0], name)
		return 0
	}
	key := []int{column("id")}
	parts := strings.Split(args[1], "/")
	if len(parts) >= 4 {
		key = append(key, column("authority"), column("path"), column("criterion"))
	}
	at, found := column(args[2]), 0
	if len(parts) == 2 {
		var all []string
		for _, row := range body {
			if row[key[0]] == parts[0] && slices.Contains(strings.Split(row[column("authorities")], "; "), parts[1]) {
				all = append(all, row[at])
			}
		}
		header = append(header, "authority")
		body, key = [][]string{append(make([]string, len(header)-1), parts[1])}, append(key, len(header)-1)
		body[0][key[0]], body[0][at] = parts[0], strings.Join(all, " | ")
	}
	for _, row := range body {
		var name []string
		for _, k := range key {
			name = append(name, row[k])
		}
		if len(parts) >= 4 && row[column("decides")] == "no" {
			reading, _, _ := strings.Cut(row[column("interpretation")], ":")
			name = append(name, reading)
		}
		if strings.Join(name, "/") != args[1] {
			continue
		}
		found++
		part, partly := strings.CutPrefix(args[3], "~")
		if same := row[at] == args[3] || partly && strings.Contains(row[at], part); same == neg {
			ts.Fatalf("%s of %s is %q", args[2], args[1], row[at])
		}
	}
	if found == 0 {
		ts.Fatalf("%s has no row %s", args[0], args[1])
	}
}

// rows N FILE: the table has so many rows below its header.
func rows(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: rows N FILE")
	}
	if _, body := table(ts, args[1]); strconv.Itoa(len(body)) != args[0] {
		ts.Fatalf("%s has %d rows, not %s", args[1], len(body), args[0])
	}
}

// pack HOW FROM TO rewrites a file: gzip, bom, crlf, utf16, records (an RFC 8142
// sequence of its lines) or cut (its second half is lost).
func pack(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: pack HOW FROM TO")
	}
	text := ts.ReadFile(args[1])
	switch args[0] {
	case "gzip":
		var b bytes.Buffer
		w := gzip.NewWriter(&b)
		w.Write([]byte(text))
		ts.Check(w.Close())
		text = b.String()
	case "bom":
		text = "\ufeff" + text
	case "crlf":
		text = strings.ReplaceAll(text, "\n", "\r\n")
	case "utf16":
		text = "\xff\xfe" + strings.Join(strings.Split(text, ""), "\x00") + "\x00"
	case "latin1":
		var b []byte
		for _, c := range text {
			b = append(b, byte(c))
		}
		text = string(b)
	case "records":
		text = "\x1e" + strings.ReplaceAll(strings.TrimRight(text, "\n"), "\n", "\n\x1e") + "\n"
	case "cut":
		text = text[:len(text)/2]
	default:
		ts.Fatalf("pack does not know %s", args[0])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[2]), []byte(text), 0o666))
}
