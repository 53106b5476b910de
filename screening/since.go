package screening

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/out"
)

// before is an earlier run, as far as another of the same command is compared with it.
type before struct {
	open     func(name string) (io.ReadCloser, error)
	manifest struct {
		Tool      string            `json:"tool"`
		Version   string            `json:"version"`
		Command   string            `json:"command"`
		Day       string            `json:"decision_date"`
		Settings  map[string]any    `json:"settings"`
		Structure map[string]string `json:"structure"`
		Books     []struct{ Book, Edition string }
		Inputs    []struct{ Role, File, SHA256, Date string }
	}
}

// openBefore reads what an earlier run was made of. That of another command is refused.
func openBefore(open func(name string) (io.ReadCloser, error), command string) (*before, error) {
	b := &before{open: open}
	file, err := open(out.Manifest)
	if err != nil {
		return nil, &job.Error{Message: fmt.Sprintf("--since: it has no %s, so it is no result of waterward %s: %v", out.Manifest, command, err)}
	}
	defer file.Close()
	switch err := json.NewDecoder(file).Decode(&b.manifest); {
	case err != nil:
		return nil, &job.Error{Message: fmt.Sprintf("--since: its %s cannot be read: %v", out.Manifest, err)}
	case b.manifest.Tool != "waterward" || b.manifest.Command != command:
		return nil, &job.Error{Message: fmt.Sprintf("--since: by its %s it is no result of waterward %s", out.Manifest, command)}
	}
	return b, nil
}

// table reads a table that must have some columns.
func (b *before) table(name string, take func(map[string]string), columns ...string) error {
	wrong := func(what string) error {
		return &job.Error{Message: fmt.Sprintf("--since: its %s %s; it was written by waterward %s: run the same job again with this version, and compare with that", name, what, b.manifest.Version)}
	}
	file, err := b.open(name)
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

// common are the changes of what all results rest on: the day, the settings, the books, the
// data. What they are changes of is said as "book X", "file of LAYER FILE".
func (b *before) common(now *opened, books []*rules.Book, settings any, structure map[string]string) []difference {
	var made []difference
	add := func(what, was, is string) {
		if was != is {
			made = append(made, difference{what: what, before: was, after: is})
		}
	}
	add("decision date", b.manifest.Day, job.DayText(now.job.DecisionDate.Time))
	add("version of waterward", b.manifest.Version, now.options.Version)
	var set map[string]any
	if text, err := json.Marshal(settings); err == nil { // as the manifest has them
		json.Unmarshal(text, &set)
	}
	for _, name := range sortedKeys(set, b.manifest.Settings) {
		add("setting "+name, settingText(b.manifest.Settings[name]), settingText(set[name]))
	}
	for _, name := range sortedKeys(structure, b.manifest.Structure) {
		add("structure "+name, b.manifest.Structure[name], structure[name])
	}
	editions, inputs := map[string][2]string{}, map[string][2]string{}
	for _, book := range b.manifest.Books {
		editions[book.Book] = [2]string{join(editions[book.Book][0], book.Edition), ""}
	}
	for _, book := range books {
		editions[book.Name] = [2]string{editions[book.Name][0], join(editions[book.Name][1], book.Edition)}
	}
	for _, in := range b.manifest.Inputs {
		inputs[in.Role+" "+in.File] = [2]string{short(in.SHA256, in.Date), ""}
	}
	for _, in := range now.inputs() {
		name := in.Role + " " + in.File
		inputs[name] = [2]string{inputs[name][0], short(in.SHA256, in.Date)}
	}
	for _, name := range sortedKeys(editions, nil) {
		add("book "+name, editions[name][0], editions[name][1])
	}
	for _, name := range sortedKeys(inputs, nil) {
		add("file of "+name, inputs[name][0], inputs[name][1])
	}
	return made
}

// sortedKeys are the names in either of two maps.
func sortedKeys[V any](a, b map[string]V) []string {
	all := maps.Clone(a)
	if all == nil {
		all = map[string]V{}
	}
	maps.Copy(all, b)
	return slices.Sorted(maps.Keys(all))
}

// settingText is a setting as the manifest has it; empty if it has none.
func settingText(v any) string {
	if v == nil {
		return ""
	}
	text, _ := json.Marshal(v) // it came from JSON
	return string(text)
}

func join(a, b string) string { return strings.TrimPrefix(a+", "+b, ", ") }

// short tells a file apart: the beginning of its checksum, and the date that it states.
func short(sum, date string) string {
	if sum = sum[:min(12, len(sum))]; date != "" {
		sum += ", " + date
	}
	return sum
}

// earlier is what a screening of before has written, as far as it is compared.
type earlier struct {
	*before
	summary  map[string]map[string]string // by id, those that were decided or should have been
	errors   map[string][]string          // by id, which several features may have had that were none of them decided
	measures map[string]map[string]string
	requests map[string][]string // by id
}

// readEarlier reads the results of an earlier screening by the names of its files. Tables that
// lack what is compared are refused.
func readEarlier(open func(name string) (io.ReadCloser, error)) (*earlier, error) {
	b, err := openBefore(open, "screen")
	if err != nil {
		return nil, err
	}
	e := &earlier{before: b, summary: map[string]map[string]string{}, errors: map[string][]string{}, measures: map[string]map[string]string{}, requests: map[string][]string{}}
	read := func(name string, take func(map[string]string), columns ...string) {
		if err == nil {
			err = b.table(name, take, columns...)
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
