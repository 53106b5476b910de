package main

import (
	"encoding/json"
	"os"
	"path/filepath"
)

// manifest is the file of a folder that says which command has written the others. Where
// it is, all of them are there, and whole.
const manifest = "run.json"

// results are what the run.json of a folder says of the files beside it.
type results struct {
	Tool    string `json:"tool"`
	Command string `json:"command"`
	Outputs []struct {
		File string `json:"file"`
	} `json:"outputs"`
}

// resultsIn are the results that a folder holds; none if it has no run.json of ours.
func resultsIn(dir string) (r results) {
	text, err := os.ReadFile(filepath.Join(dir, manifest))
	if err != nil || json.Unmarshal(text, &r) != nil || r.Tool != "waterward" {
		return results{}
	}
	return r
}

// has reports whether a file is one of the results.
func (r *results) has(name string) bool {
	if name == manifest {
		return r.Command != ""
	}
	for _, o := range r.Outputs {
		if o.File == name {
			return true
		}
	}
	return false
}
