package screening

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"waterward/screening/job"
	"waterward/screening/out"
)

// earlier is what a run of before has written, as far as it is compared.
type earlier struct {
	manifest struct {
		Tool    string `json:"tool"`
		Version string `json:"version"`
		Command string `json:"command"`
		Day     string `json:"decision_date"`
		Books   []struct{ Book, Edition string }
		Inputs  []struct{ Role, File, SHA256 string }
	}
	summary  map[string]map[string]string // by id, those that were decided or should have been
	errors   map[string][]string          // by id, which several features may have had that were none of them decided
	measures map[string]map[string]string
	requests map[string][]string // by id
}

// readEarlier reads the results of an earlier run by the names of its files. Those of
// another command are refused, and tables that lack what is compared.
func readEarlier(open func(name string) (io.ReadCloser, error)) (*earlier, error) {
	e := &earlier{summary: map[string]map[string]string{}, errors: map[string][]string{}, measures: map[string]map[string]string{}, requests: map[string][]string{}}
	file, err := open(out.Manifest)
	if err != nil {
		return nil, &job.Error{Message: fmt.Sprintf("--since: it has no %s, so it is no result of waterward screen: %v", out.Manifest, err)}
	}
	defer file.Close()
	switch err := json.NewDecoder(file).Decode(&e.manifest); {
	case err != nil:
		return nil, &job.Error{Message: fmt.Sprintf("--since: its %s cannot be read: %v", out.Manifest, err)}
	case e.manifest.Tool != "waterward" || e.manifest.Command != "screen":
		return nil, &job.Error{Message: fmt.Sprintf("--since: by its %s it is no result of waterward screen", out.Manifest)}
	}
	read := func(name string, take func(map[string]string), columns ...string) {
		if err == nil {
			err = e.table(open, name, take, columns)
		}
	}
	var decided []bool // by row, which both tables have in one order
	read("summary.csv", func(row map[string]string) {
		decided = append(decided, row["not_decided"] == "")
		if row["not_decided"] == "" {
			e.summary[row["id"]] = row
			e.errors[row["id"]] = append(e.errors[row["id"]], row["error"])
		}
	}, "id", "not_decided", "error")
	n := 0
	read("measures.csv", func(row map[string]string) {
		if n++; n <= len(decided) && decided[n-1] {
			e.measures[row["id"]] = row
		}
	}, "id")
	read("requests.csv", func(row map[string]string) { e.requests[row["id"]] = append(e.requests[row["id"]], row["request"]) }, "id", "request")
	return e, err
}

// table reads a table that must have some columns.
func (e *earlier) table(open func(string) (io.ReadCloser, error), name string, take func(map[string]string), columns []string) error {
	wrong := func(what string) error {
		return &job.Error{Message: fmt.Sprintf("--since: its %s %s; it was written by waterward %s: screen the same job again with this version, and compare with that", name, what, e.manifest.Version)}
	}
	file, err := open(name)
	if err != nil {
		return wrong("is not there")
	}
	defer file.Close()
	reader := csv.NewReader(file)
	header, err := reader.Read()
	if err != nil {
		return wrong("cannot be read")
	}
	for _, c := range columns {
		if !slices.Contains(header, c) {
			return wrong("has no column " + c)
		}
	}
	for {
		cells, err := reader.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return wrong("cannot be read: " + err.Error())
		}
		row := make(map[string]string, len(header))
		for i, c := range header {
			row[c] = cells[i]
		}
		take(row)
	}
}

// ofRun are the changes of what all proposals are decided by: the day, the books, the data.
func (e *earlier) ofRun(now *run) []difference {
	var made []difference
	add := func(what, before, after string) {
		if before != after {
			made = append(made, difference{what: what, before: before, after: after})
		}
	}
	add("decision date", e.manifest.Day, job.DayText(now.job.DecisionDate.Time))
	add("version of waterward", e.manifest.Version, now.options.Version)
	books, inputs := map[string][2]string{}, map[string][2]string{}
	for _, b := range e.manifest.Books {
		books[b.Book] = [2]string{join(books[b.Book][0], b.Edition), ""}
	}
	for _, b := range now.books.Live() {
		books[b.Name] = [2]string{books[b.Name][0], join(books[b.Name][1], b.Edition)}
	}
	for _, in := range e.manifest.Inputs {
		inputs[in.Role+" "+in.File] = [2]string{short(in.SHA256), ""}
	}
	for _, in := range now.log.Sorted() {
		name := in.Role + " " + in.File
		inputs[name] = [2]string{inputs[name][0], short(in.SHA256)}
	}
	for _, name := range slices.Sorted(maps.Keys(books)) {
		add("book "+name, books[name][0], books[name][1])
	}
	for _, name := range slices.Sorted(maps.Keys(inputs)) {
		add("file of "+name, inputs[name][0], inputs[name][1])
	}
	return made
}

func join(a, b string) string { return strings.TrimPrefix(a+", "+b, ", ") }

// short is the beginning of a checksum.
func short(sum string) string { return sum[:min(12, len(sum))] }
