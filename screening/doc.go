// Package screening joins where things are to what is allowed: it opens what a job names,
// measures each proposal at its site, has every rule book decide on it, and hands the results
// to the files of a run.
//
// It opens no file itself; a [job.Files] and an [out.Outputs] do. It may import every package
// below it but inspect. Start with run.go for a screening, envelope.go for envelopes: both
// begin in open.go and end in sinks (outputs.go, envelope_outputs.go).
package screening
