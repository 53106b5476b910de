// Package screening joins where things are (package geo) to what is allowed
// (package rules): it reads the layers and proposals a job names, measures each
// proposal at its site, has every rule book decide on it, and writes the
// results. It opens no files itself; a [job.Files] and an [out.Outputs] do.
package screening
