// Package pages writes what a person looks at: pages that open from disk in any browser,
// with nothing fetched. It is told what to show in words and figures that are ready to be
// read; it knows no rules, no maps and no files.
//
// A page is a template, a style and a script that are embedded here, and data that stands in
// it as JSON. Its Content-Security-Policy names the one style and the one script by their
// hashes, so that nothing a file brings along can run.
//
// It imports geo/text and screening/drawing. Start with triage.go, county.go and sheet.go,
// then page.go.
package pages
