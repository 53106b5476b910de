module waterward

go 1.26.3

require (
	github.com/paulmach/orb v0.14.0
	github.com/peterstace/simplefeatures v0.58.0
	github.com/rogpeppe/go-internal v1.16.0
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3
	github.com/stretchr/testify v1.12.1
	github.com/twpayne/go-geom v1.7.0
	github.com/twpayne/go-kml/v3 v3.6.0
	github.com/urfave/cli/v2 v2.27.7
	go.yaml.in/yaml/v4 v4.0.0
	golang.org/x/text v0.14.0
	pgregory.net/rapid v1.3.0
)

require (
	github.com/cpuguy83/go-md2man/v2 v2.0.7 // indirect
	github.com/russross/blackfriday/v2 v2.1.0 // indirect
	github.com/xrash/smetrics v0.0.0-20240521201337-686a1a2994c1 // indirect
	go.yaml.in/yaml/v3 v3.0.5 // indirect
	golang.org/x/sys v0.26.0 // indirect
	golang.org/x/tools v0.26.0 // indirect
)
