package geojson

import (
	"encoding/json"
	"fmt"

	"waterward/geo/text"
)

// stated takes the system that members of the collection state.
func (r *Reader) stated(members []Member, behind bool) error {
	if r.given {
		return nil
	}
	system, err := statedCRS(members)
	switch {
	case err != nil:
		return &FileError{r.file, "its crs member: " + err.Error()}
	case system == nil:
	case behind && system.Code != r.CRS().Code:
		return &FileError{r.file, fmt.Sprintf("its crs member (%s) stands behind the features, too late to read them by; give it with --crs LAYER=EPSG:%d, or put it first", system.Name, system.Code)}
	default:
		r.crs = system
	}
	return nil
}

// another takes the system of a collection, which must be that of those before it in
// the file.
func (r *Reader) another(head []Member) error {
	was := r.CRS()
	if !r.given && r.count > 0 {
		r.crs = nil
	}
	if err := r.stated(head, false); err != nil {
		return err
	}
	if r.count > 0 && r.CRS().Code != was.Code {
		return &FileError{r.file, fmt.Sprintf("it holds collections in two coordinate systems, %s and %s; give each a file of its own", was.Name, r.CRS().Name)}
	}
	return nil
}

// Before returns the members of the collection that stand ahead of its
// features, known once the first feature has been read; After those behind
// them, known at the end.
func (r *Reader) Before() []Member { return r.before }

// Earlier returns the members ahead of the features of other collections that came
// before it in the file.
func (r *Reader) Earlier() []Member { return r.earlier }

// After returns the collection members behind the features.
func (r *Reader) After() []Member { return r.after }

// member reads one member of a top-level object; features is true for the array
// of features, which is left to be read one by one.
func (r *Reader) member() (m Member, features bool, err error) {
	key, err := r.scan.value()
	if err != nil {
		return m, false, r.ioError(err)
	}
	m.name = key
	if json.Unmarshal(key, &m.Key) != nil || !r.scan.accept(':') {
		return m, false, &FileError{r.file, r.notValid(fmt.Sprintf("not valid JSON near %.40q", key))}
	}
	if m.Key == "features" && r.scan.accept('[') {
		return m, true, nil
	}
	if m.Raw, err = r.scan.value(); err != nil {
		return m, false, r.ioError(err)
	}
	if !json.Valid(m.Raw) && m.Key != "geometry" && m.Key != "properties" {
		return m, false, &FileError{r.file, r.notValid(fmt.Sprintf("member %.40q is not valid JSON", m.Key))}
	}
	return m, false, nil
}

// membersBehind reads what stands behind the features of a collection.
func (r *Reader) membersBehind() error {
	r.scan.record()
	defer func() { r.scan.taping = false }()
	for !r.scan.accept('}') {
		if _, err := r.scan.peek(); err != nil {
			return r.ioError(err)
		}
		r.scan.accept(',')
		m, _, err := r.member()
		if err != nil {
			return err
		}
		if err := r.keep(m); err != nil {
			return err
		}
		r.after = append(r.after, m)
	}
	return r.isText()
}

// isText refuses a file whose members beside the features, on the tape, are not UTF-8: they
// are written again as they are.
func (r *Reader) isText() error {
	if i := text.NotUTF8(r.scan.tape); i >= 0 {
		return &FileError{r.file, r.badByte(r.scan.tape, i) + ", in what stands beside the features; save the file as UTF-8"}
	}
	return nil
}

// badByte is what is said of a byte that is not UTF-8 in what has just been taken.
func (r *Reader) badByte(taken []byte, i int) string {
	return text.Bad(r.scan.in.offset()-int64(len(taken)-i), taken[i])
}

// keep counts members that stand beside the features, of all collections of the
// file, and are kept.
func (r *Reader) keep(all ...Member) error {
	for _, m := range all {
		r.members++
		r.bytes += len(m.Raw)
	}
	switch {
	case r.members > mostMembers:
		return r.ioError(errManyMembers)
	case r.bytes > r.scan.most:
		return r.ioError(errTooLong)
	}
	return nil
}
