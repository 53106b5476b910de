package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// readable are how the names of files end that hold features, packed or not.
var readable = []string{".geojson", ".json", ".geojsonl", ".geojsons", ".ndjson", ".jsonl"}

// List returns the files that a name stands for: those of a folder, without its folders, or
// those that a pattern matches (as of path/filepath), else the one of that name. Others are
// what else a folder holds.
func (in *inputs) List(name string) (found, others []string, err error) {
	if name == "-" {
		return []string{name}, nil, nil
	}
	place := in.place(name)
	info, err := os.Stat(place)
	switch {
	case err == nil && info.IsDir():
		found, others, err = in.folder(name, place)
	case err == nil || !strings.ContainsAny(name, "*?["):
		return []string{name}, nil, nil
	default:
		found, err = in.matching(name, place)
	}
	if err == nil && len(found) == 0 {
		err = fmt.Errorf("%s has no file that can be read: the names of GeoJSON files end in %s, or in .gz behind that", name, strings.Join(readable, ", "))
	}
	if err != nil {
		return nil, nil, err
	}
	slices.Sort(found)
	if in.flags[name] {
		for i, file := range found {
			found[i] = in.given(file)
		}
	}
	return found, others, nil
}

// folder lists what lies in a folder; what is hidden is left out.
func (in *inputs) folder(name, place string) (found, others []string, err error) {
	entries, err := os.ReadDir(place)
	if err != nil {
		return nil, nil, err
	}
	for _, e := range entries {
		file := filepath.Join(name, e.Name())
		switch {
		case strings.HasPrefix(e.Name(), "."):
		case slices.Contains(readable, filepath.Ext(strings.TrimSuffix(strings.ToLower(e.Name()), ".gz"))) && !e.IsDir():
			found = append(found, file)
		default:
			others = append(others, file)
		}
	}
	return found, others, nil
}

// matching lists the files that a pattern matches, by the names by which they are opened.
func (in *inputs) matching(name, place string) (found []string, err error) {
	places, err := filepath.Glob(place)
	if err != nil {
		return nil, fmt.Errorf("%s is no pattern of file names: %w", name, err)
	}
	for _, p := range places {
		if info, err := os.Stat(p); err != nil || info.IsDir() {
			continue
		}
		if place != name { // it lies beside the job
			if p, err = filepath.Rel(in.base, p); err != nil {
				return nil, err
			}
		}
		found = append(found, p)
	}
	if len(found) == 0 {
		return nil, fmt.Errorf("no file matches %s", name)
	}
	return found, nil
}
