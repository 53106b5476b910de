package geojson

import (
	"bytes"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/flat"
)

const (
	// mostProperties is how many members an object may have that is read in one pass.
	mostProperties = 1000
	// mostBeside is how many members of a feature are compared with one another.
	mostBeside = 32
	// mostAtOnce is how long, in bytes, a feature may be that is read in one pass, for
	// which it is held twice: two million positions.
	mostAtOnce = 64 << 20
)

// featurePass reads a feature that is as it should be in one pass over its text. It
// gives up on all others, and on what is rare: those are for Feature.parse, which knows
// what to say of them. What it takes, parse takes with the same result.
type featurePass struct {
	jsonPass
	crs *crs.System // of the positions

	isFeature  bool
	seen       [][]byte // the names of the feature's members
	id         []byte
	properties []Member // each with its place in the text of all, but without Raw
	inside     int      // where the text of the properties starts
	around     view     // the text of the geometry
	shape      []byte   // the type of the geometry
	positions

	// names are those of the properties of a feature before, no two the same: most
	// features of a file share theirs.
	names   []string
	renamed bool // the names of this feature are not the first of those
}

// view is a part of a text.
type view struct{ from, to int }

func (v view) of(text []byte) []byte { return text[v.from:v.to:v.to] }

// sound returns the feature ahead if it can be read in one pass; if not, nil, and
// nothing is taken.
func (r *Reader) sound() *Feature {
	first, err := r.scan.peek()
	if err != nil || first != '{' && !(r.inArray && first == ',') {
		return nil
	}
	p, in, most := &r.pass, r.scan.in, min(mostAtOnce, r.scan.most)
	for {
		text := in.text()
		p.jsonPass, p.crs = jsonPass{text: text}, r.CRS()
		if first == ',' {
			p.i++
		}
		p.next()
		start := p.i
		if p.feature() && p.i-start <= most {
			f := p.made(start, r.lends)
			if f == nil {
				return nil
			}
			in.drop(p.i)
			r.count++
			f.Number, f.given = r.count, r.given
			r.written(f)
			return f
		}
		if p.i < len(text) || len(text) >= most {
			return nil
		}
		// It is cut off. As twice as much is looked at each time, what is read again is
		// less than the whole. What ends the stream is for those who meet it.
		in.fill(min(2*len(text), most))
		if len(in.text()) == len(text) {
			return nil
		}
	}
}

// feature takes a feature; made may still find that it is none.
func (p *featurePass) feature() bool {
	p.isFeature, p.seen, p.id, p.shape = false, p.seen[:0], nil, nil
	p.properties, p.renamed = p.properties[:0], false
	p.positions = positions{points: p.points[:0], lines: p.lines[:0], areas: p.areas[:0], digits: p.digits}
	p.digits.forget()
	return p.members((*featurePass).member) && p.isFeature && p.brackets > 0 && p.distinct()
}

// distinct reports whether no two properties have the same name.
func (p *featurePass) distinct() bool {
	if !p.renamed {
		return true
	}
	p.names = p.names[:0]
	if repeated(p.properties) != "" {
		return false
	}
	for _, m := range p.properties {
		p.names = append(p.names, m.Key)
	}
	return true
}

// members takes an object; take takes the value of each member.
func (p *featurePass) members(take func(p *featurePass, name []byte) bool) bool {
	if !p.take('{') {
		return false
	}
	if p.take('}') {
		return true
	}
	for range mostProperties {
		name, plain, ok := p.key()
		if !ok || !plain || len(name)+len(`""`) > LongestText || !take(p, name) {
			return false
		}
		if !p.take(',') {
			return p.take('}')
		}
	}
	return false
}

// member takes a member of the feature itself.
func (p *featurePass) member(name []byte) bool {
	for _, s := range p.seen {
		if bytes.Equal(s, name) {
			return false
		}
	}
	if p.seen = append(p.seen, name); len(p.seen) > mostBeside {
		return false
	}
	from := p.i
	switch string(name) {
	case "type":
		p.isFeature = p.word(`"Feature"`)
		return p.isFeature
	case "geometry":
		ok := p.members((*featurePass).inGeometry)
		p.around = view{from, p.i}
		return ok
	case "properties":
		if p.next() == 'n' {
			return p.word("null")
		}
		p.inside = from
		return p.members((*featurePass).property)
	case "id":
		ok := p.value()
		p.id = p.text[from:p.i]
		return ok
	case "crs", "features", "coordinates": // a system of its own; no feature
		return false
	}
	return p.value()
}

// property takes one of the feature's properties.
func (p *featurePass) property(name []byte) bool {
	m := Member{}
	if n := len(p.properties); n < len(p.names) && p.names[n] == string(name) {
		m.Key = p.names[n]
	} else {
		m.Key, p.renamed = string(name), true
	}
	m.start = p.i - p.inside
	ok := p.value()
	m.end = p.i - p.inside
	p.properties = append(p.properties, m)
	return ok
}

// made is the feature that has been read, from start on, with a text of its own unless
// it is lent; nil if it is not one that can be used.
func (p *featurePass) made(start int, lent bool) *Feature {
	g := p.geometry()
	if g == nil {
		return nil
	}
	text, properties := p.text[start:p.i], p.properties
	if !lent {
		text, properties = bytes.Clone(text), slices.Clone(properties)
	}
	f := &Feature{ID: plainText(p.id), Geometry: g, bound: flat.BoundOf(g), crs: p.crs, raw: text, decimals: p.digits.decimals(), readable: true}
	f.geometry = view{p.around.from - start, p.around.to - start}.of(text)
	if len(properties) > 0 {
		inside := text[p.inside-start:]
		for i, m := range properties {
			properties[i].Raw = view{m.start, m.end}.of(inside)
		}
		f.properties = properties
	}
	if id := plainText(f.Property("id")); id != "" {
		f.ID = id
	}
	if len(f.ID) > LongestText || halved(p.id) || halved(f.Property("id")) {
		return nil
	}
	return f
}

// geometry is that of the feature, in degrees; nil if something is wrong with it.
func (p *featurePass) geometry() orb.Geometry {
	points, degrees := p.points, p.crs.IsDegrees()
	if degrees && p.brackets > 1 {
		points = make([]orb.Point, len(p.points))
		copy(points, p.points)
	}
	g := p.drawn(string(p.shape), points)
	if degrees || g == nil {
		return g
	}
	g, err := p.crs.ToDegrees(g)
	if err != nil {
		return nil
	}
	return g
}
