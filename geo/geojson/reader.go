package geojson

import (
	"fmt"
	"io"
	"iter"
	"math"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/text"
)

// Reader streams the features of one GeoJSON file: a feature collection, one
// feature, newline-delimited features or an RFC 8142 sequence, each optionally
// gzipped, with or without a byte order mark.
type Reader struct {
	file     string
	scan     *scanner
	pass     featurePass
	count    int
	unusable int
	inArray  bool
	texts    bool        // a sequence of texts, each behind a record separator
	earlier  []Member    // the same of collections before it in the file
	before   []Member    // collection members ahead of "features", in order
	after    []Member    // and behind
	members  int         // how many of those there are
	bytes    int         // in them
	crs      *crs.System // of the positions; nil until it is known
	given    bool        // it was given and beats what the file says
	lends    bool        // see Lend
	stray    orb.Bound   // of positions that are no longitude and latitude
	decimals int         // of the feature written with the fewest
	drawn    bool        // there is one
}

// NewReader starts reading; file is the name used in messages.
func NewReader(file string, r io.Reader) (*Reader, error) {
	scan, err := newScanner(r)
	if err != nil {
		return nil, &FileError{file, err.Error()}
	}
	if wrong := foreign(file, scan.in); wrong != "" {
		return nil, &FileError{file, wrong}
	}
	return readerOf(file, scan), nil
}

func readerOf(file string, scan *scanner) *Reader {
	return &Reader{file: file, scan: scan, stray: orb.Bound{Min: orb.Point{1, 1}, Max: orb.Point{-1, -1}}}
}

// In says in which system the positions are, whatever the file says.
func (r *Reader) In(system *crs.System) { r.crs, r.given = system, true }

// Lend saves copying the text of every feature: all of a feature but its geometry then
// holds only until the next is read.
func (r *Reader) Lend() { r.lends = true }

// CRS returns the system of the positions: that given, or stated by the file
// ahead of its features, or WGS 84 longitude and latitude.
func (r *Reader) CRS() *crs.System {
	if r.crs == nil {
		return crs.Geographic
	}
	return r.crs
}

// Stray returns the bound of the positions that can be no longitude and latitude
// although nothing says that they are anything else; it is empty if there are
// none.
func (r *Reader) Stray() orb.Bound { return r.stray }

// Grain is that of the feature written with the fewest digits, see [Feature.Grain]; 0 if
// there is none with a geometry.
func (r *Reader) Grain() float64 {
	if !r.drawn {
		return 0
	}
	return 0.5 * math.Pow10(-r.decimals) * r.CRS().Unit.Metres()
}

// Decimals is with how many digits behind the point the coarsest feature is written.
func (r *Reader) Decimals() int { return r.decimals }

// written takes note of how a feature is written.
func (r *Reader) written(f *Feature) {
	if f.Geometry == nil {
		return
	}
	if !r.drawn || f.decimals < r.decimals {
		r.decimals = f.decimals
	}
	r.drawn = true
}

// Next returns the next feature, or io.EOF after the last. A feature that
// cannot be used is returned with its Err set; a *FileError ends the file.
func (r *Reader) Next() (*Feature, error) {
	for {
		if f := r.sound(); f != nil {
			return f, nil
		}
		if f, err := r.step(); f != nil || err != nil {
			return f, err
		}
	}
}

// Features yields every feature; an error, which can only be the last that comes, stands
// beside none.
func (r *Reader) Features() iter.Seq2[*Feature, error] {
	return func(yield func(*Feature, error) bool) {
		for {
			f, err := r.Next()
			if err == io.EOF || !yield(f, err) || err != nil {
				return
			}
		}
	}
}

// step reads on to the next feature, or over what stands around features (nil, nil).
func (r *Reader) step() (*Feature, error) {
	if r.inArray {
		if r.scan.accept(']') {
			return r.end()
		}
		r.scan.accept(',')
		f, err := r.feature(nil)
		if r.brokeOff(err) {
			return r.cutShort()
		}
		return f, err
	}
	first, err := r.scan.peek()
	switch {
	case err == io.EOF && r.count == 0 && r.before == nil:
		return nil, &FileError{r.file, "the file is empty; a GeoJSON feature collection is expected"}
	case err != nil:
		return nil, r.ioError(err)
	case first == recordSeparator:
		r.scan.take(1)
		r.texts = true
		return nil, nil
	case first != '{':
		return nil, &FileError{r.file, fmt.Sprintf("found %q where a GeoJSON object should start; is this a GeoJSON file?", first)}
	}
	return r.object()
}

// end reads what stands behind the features of a collection.
func (r *Reader) end() (*Feature, error) {
	err := r.membersBehind()
	if r.brokeOff(err) {
		return r.cutShort()
	}
	if err == nil {
		err = r.stated(r.after, true)
	}
	r.inArray = err != nil
	return nil, err
}

// object reads one top-level object: the head of a collection, whose features
// then follow one by one (nil, nil), or a feature by itself.
func (r *Reader) object() (*Feature, error) {
	r.scan.record()
	defer func() { r.scan.taping = false }()
	r.scan.accept('{')
	head := []Member{}
	for !r.scan.accept('}') {
		r.scan.accept(',')
		m, features, err := r.member()
		if r.brokeOff(err) {
			return r.cutShort()
		}
		if err != nil {
			return nil, err
		}
		if features {
			if err := r.isText(); err != nil {
				return nil, err
			}
			r.earlier = append(r.earlier, r.before...)
			r.before, r.inArray = head, true
			if err := r.keep(head...); err != nil {
				return nil, err
			}
			return nil, r.another(head)
		}
		if head = append(head, m); len(head) > mostMembers {
			return nil, r.ioError(errManyMembers)
		}
	}
	for _, m := range head {
		if m.Key == "type" && string(m.Raw) == `"FeatureCollection"` {
			return nil, &FileError{r.file, `the feature collection has no "features"`}
		}
		if m.Key == "coordinates" {
			return nil, &FileError{r.file, "a bare geometry; wrap it in a feature with an id"}
		}
	}
	return r.feature(r.scan.tape)
}

// feature reads the next feature, or takes the text given.
func (r *Reader) feature(raw []byte) (*Feature, error) {
	if raw == nil {
		var err error
		if raw, err = r.scan.value(); err != nil {
			return nil, r.ioError(err)
		}
		if len(raw) == 0 {
			return nil, &FileError{r.file, fmt.Sprintf("not valid JSON after feature %d", r.count)}
		}
	}
	r.count++
	f := &Feature{Number: r.count, raw: raw, crs: r.CRS(), given: r.given}
	if i := text.NotUTF8(raw); i >= 0 {
		f.fail(r.file, r.badByte(raw, i), "save the file as UTF-8")
	} else {
		f.parse(r.file, r.scan.depth)
	}
	if own := f.CRS(); own.Code != r.CRS().Code {
		switch {
		case r.count > 1:
			f.fail(r.file, fmt.Sprintf("its crs is %s, where that of the features before it is %s", own.Name, r.CRS().Name), "write all of the file in one system")
		case r.crs != nil:
			f.fail(r.file, fmt.Sprintf("its crs is %s, where that of its collection is %s", own.Name, r.CRS().Name), "write all of the file in one system")
		default:
			r.crs = own
		}
	}
	r.written(f)
	if f.Err != nil && f.crs.IsDegrees() && f.readable {
		r.stray = r.stray.Union(f.stray())
	}
	return r.counted(f)
}
