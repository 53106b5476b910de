package screening

import _ "embed"

// Guide is the page on what goes into a run and what comes out of it, as markdown.
//
//go:embed README.md
var Guide string
