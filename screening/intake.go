package screening

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"waterward/geo/crs"
	"waterward/geo/geojson"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/site"
)

// intake is the files of proposals of a run, in the order in which they are read. They are
// read more than once: first to see what stands in them together, then to screen.
type intake struct {
	files job.Files
	of    []*job.ProposalsFile
	day   time.Time // whose rules decide
	left  []string  // files of folders that are no GeoJSON
	// broken are the files that cannot be read to their end, if there are others: what one
	// applicant sends ends no run.
	broken  map[*job.ProposalsFile]error
	missed  []string      // of each source, what is looked for and some features do not have
	systems []*crs.System // in which the files are
}

// newIntake lists the files of proposals and makes sure that each can be read again.
func newIntake(ctx context.Context, files job.Files, j *job.Job) (*intake, error) {
	all, left, err := j.Expand(files)
	if err != nil {
		return nil, err
	}
	in := &intake{files: files, of: all, left: left, day: j.DecisionDate.Time, broken: map[*job.ProposalsFile]error{}}
	for _, file := range all {
		again, err := inputs.Rereadable(ctx, in.files, file.Name)
		if err != nil && ctx.Err() == nil && in.several() {
			in.broken[file] = err
			continue
		}
		if err != nil {
			return nil, err
		}
		in.files = again
	}
	return in, nil
}

func (in *intake) several() bool { return len(in.of) > 1 }

// each visits every feature of every file in its order, in which a file that breaks off has
// a place behind its features. A fault of the only file ends it early; screening meets the
// same fault and reports it.
func (in *intake) each(ctx context.Context, visit func(*site.Submission)) (all int) {
	for _, file := range in.of {
		err := in.scan(ctx, file, func(f *geojson.Feature) {
			all++
			visit(site.Submit(f, file, all))
		})
		if err != nil && in.several() {
			in.broken[file] = err
			all++
		}
	}
	return all
}

// scan visits the features of one file.
func (in *intake) scan(ctx context.Context, file *job.ProposalsFile, visit func(*geojson.Feature)) error {
	input, err := in.files.Open(file.Name)
	if err != nil {
		return err
	}
	defer input.Close()
	reader, err := layers.NewReader(file.Name, input, file.CRS)
	if err != nil {
		return err
	}
	located := 0
	defer func() {
		if own := reader.CRS(); !slices.ContainsFunc(in.systems, func(c *crs.System) bool { return c.Code == own.Code }) {
			in.systems = append(in.systems, own)
		}
	}()
	for f, err := range reader.Features() {
		if err != nil {
			return err
		}
		if ctx.Err() != nil {
			return nil
		}
		if f.Geometry != nil {
			located++
		}
		visit(f)
	}
	if located == 0 && !reader.Stray().IsEmpty() {
		return &geojson.FileError{File: file.Name, Wrong: "none of its positions are degrees: say in which coordinate system it is (crs of the source, in the job)"}
	}
	return inputs.Refuse(reader, file.Name)
}

// shared is the system of the positions of all files; nil if they are in several.
func (in *intake) shared() *crs.System {
	if len(in.systems) != 1 {
		return nil
	}
	return in.systems[0]
}

// apart tells how far positions of several systems may lie from where they are drawn in one
// collection; empty if there is nothing to tell.
func (in *intake) apart() string {
	most := 0.0
	var names []string
	for _, system := range in.systems {
		names = append(names, system.String())
		most = max(most, crs.DatumShift(system.Datum, in.systems[0].Datum))
	}
	if most == 0 {
		return ""
	}
	return fmt.Sprintf("the proposals are in several coordinate systems (%s); in proposals.geojson all are longitude and latitude, in which they may lie %s apart: that is in no distance here, and would be in one measured there", strings.Join(names, ", "), job.FeetText(most))
}

// members are those of the collection of all proposals, on one side of its features: what
// the only file has there, and the system of the positions where the file does not say it.
func (in *intake) members(ofFile []geojson.Member, ahead bool) []geojson.Member {
	given := in.of[0].CRS.System != nil
	if in.several() {
		ofFile, given = nil, true
	}
	if !given || in.shared() == nil {
		return ofFile
	}
	made := slices.DeleteFunc(slices.Clone(ofFile), func(m geojson.Member) bool { return m.Key == "crs" })
	if ahead {
		made = append(made, geojson.CRSMember(in.shared())...)
	}
	return made
}

// unread stands in the results for a file that cannot be read to its end.
func (in *intake) unread(file *job.ProposalsFile, order int) *site.Submission {
	s := site.Submit(&geojson.Feature{}, file, order)
	s.Refused = in.why(file)
	return s
}

// why a file cannot be read, with its name once.
func (in *intake) why(file *job.ProposalsFile) error {
	text := strings.TrimPrefix(in.broken[file].Error(), "proposals: ")
	if strings.HasPrefix(text, file.Name+": ") {
		return &job.Error{Message: text}
	}
	return &job.Error{Message: file.Name + ": " + text}
}

// read yields every submission of a run, each with what the roster says of it.
func (in *intake) read(ctx context.Context, r *run, yield func(*site.Submission) bool) error {
	order := 0
	for _, file := range in.of {
		if err := in.readFile(r, file, func(f *geojson.Feature) bool {
			order++
			return yield(r.roster.settled(site.Submit(f, file, order)))
		}); err != nil {
			return err
		}
		if in.broken[file] != nil {
			order++
			if !yield(in.unread(file, order)) {
				return nil
			}
		}
		if ctx.Err() != nil {
			return nil
		}
	}
	return nil
}

// readFile yields the features of one file and records what it holds.
func (in *intake) readFile(r *run, file *job.ProposalsFile, yield func(*geojson.Feature) bool) error {
	input, err := in.files.Open(file.Name)
	if err != nil {
		if in.broken[file] != nil {
			return nil
		}
		return &job.Error{Message: fmt.Sprintf("proposals: cannot be opened: %v", err)}
	}
	defer input.Close()
	counted := r.log.Begin("proposals", file.Name, input)
	reader, err := layers.NewReader(file.Name, counted, file.CRS)
	for err == nil {
		var f *geojson.Feature
		if f, err = reader.Next(); err == nil {
			counted.Feature(f)
			if f.Number == 1 && !in.several() { // before the writer can see it
				r.out.proposals.Before = in.members(reader.Before(), true)
			}
			if !yield(f) {
				return nil
			}
		}
	}
	if err == io.EOF {
		err = inputs.Refuse(reader, file.Name)
	}
	if in.broken[file] != nil {
		if reader != nil {
			counted.Settle(reader)
		}
		return counted.Finish()
	}
	if err != nil {
		return err
	}
	if counted.Record.Features == counted.Record.Unusable && !reader.Stray().IsEmpty() {
		return &geojson.FileError{File: file.Name, Wrong: layers.StrayText("proposals", reader.Stray(), r.layers.Extent())}
	}
	counted.Settle(reader)
	for _, text := range r.layers.Datums(reader.CRS().Datum) {
		if !slices.Contains(r.report.Datums, text) {
			r.report.Datums = append(r.report.Datums, text)
		}
	}
	if !in.several() {
		r.out.proposals.After = in.members(reader.After(), false)
	}
	return counted.Finish()
}

// warnings are what of the files may mislead.
func (in *intake) warnings() []string {
	told := slices.Clone(in.missed)
	if len(in.left) > 0 {
		told = append(told, job.LeftText(in.left))
	}
	if text := in.apart(); text != "" {
		told = append(told, text)
	}
	return told
}
