// Package inspect says what files hold before anything is screened with them: of single
// files, of those a job names, and as a draft of a job for a folder.
//
// It may import site, layers, inputs, job, levels, rules and geo. Start with inspect.go.
package inspect
