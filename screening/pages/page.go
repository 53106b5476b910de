package pages

import (
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"html/template"
	"io"
	"strings"
)

//go:embed assets
var assets embed.FS

// text is an embedded file, without what the hash of it would not see the same everywhere.
func text(name string) string {
	b, _ := assets.ReadFile("assets/" + name) // embedded, so it is there
	return strings.ReplaceAll(string(b), "\r\n", "\n")
}

// hash is a text as a Content-Security-Policy allows it.
func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// page is what every template is given beside its own data.
type page struct {
	Policy string
	Style  template.CSS
	Script template.JS
	Data   any
}

// write makes a page of the template, the style and the script of a name; of one without a
// script none may run. Pages that are read on screen begin with a style and a script that they share.
func write(w io.Writer, name string, functions template.FuncMap, data any) error {
	style, script := text(name+".css"), text(name+".js")
	if script != "" {
		style, script = text("base.css")+style, text("base.js")+script
	}
	made, err := template.New(name).Funcs(functions).Parse(text(name + ".html"))
	if err != nil {
		return err
	}
	policy := "default-src 'none'; style-src " + hash(style)
	if script != "" {
		policy += "; script-src " + hash(script)
	}
	return made.Execute(w, page{
		Policy: policy + "; base-uri 'none'; form-action 'none'",
		Style:  template.CSS(style), Script: template.JS(script), Data: data,
	})
}
