package levels

import _ "embed"

// Guide is the page on water levels, as markdown.
//
//go:embed README.md
var Guide string
