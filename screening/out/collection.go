package out

import (
	"bytes"
	"encoding/json"

	"waterward/geo/geojson"
)

// Collection is a GeoJSON feature collection.
type Collection[R any] struct {
	Name          string
	Of            func(R) [][]byte // the features of a result, as they will stand
	Before, After []geojson.Member // members before the features, set before the first of them is put, and behind

	file    *File
	started bool
}

func (c *Collection[R]) open(files *files) (err error) {
	c.file, err = files.create(c.Name)
	return err
}

func (c *Collection[R]) Prepare(result R) func() {
	features := c.Of(result)
	return func() {
		for _, f := range features {
			c.add(f)
		}
	}
}

func (c *Collection[R]) Finish() {
	if !c.started {
		c.begin()
	}
	c.write([]byte("\n]"))
	for _, m := range c.After {
		if m.Key != "type" || hasType(c.Before) {
			c.write([]byte(", "), memberText(m))
		}
	}
	c.write([]byte("}\n"))
}

func (c *Collection[R]) write(text ...[]byte) { c.file.Write(bytes.Join(text, nil)) }

func (c *Collection[R]) begin() {
	head := c.Before
	if !hasType(head) {
		head = append([]geojson.Member{{Key: "type", Raw: json.RawMessage(`"FeatureCollection"`)}}, head...)
	}
	c.write([]byte("{"))
	for _, m := range head {
		c.write(memberText(m), []byte(", "))
	}
	c.write([]byte("\"features\": ["))
	c.started = true
}

func (c *Collection[R]) add(feature []byte) {
	separator := []byte(",\n")
	if !c.started {
		c.begin()
		separator = []byte("\n")
	}
	c.write(separator, feature)
}

func hasType(members []geojson.Member) bool {
	for _, m := range members {
		if m.Key == "type" {
			return true
		}
	}
	return false
}

func memberText(m geojson.Member) []byte {
	return append(append(bytes.Clone(m.Name()), ':'), m.Raw...)
}
