// Command waterward says which permit path a proposed reef breakwater or sill
// falls under, how surely, and why.
package main

import "os"

func main() {
	paceCollector()
	os.Exit(run(interrupted(), os.Args, os.Stdin, os.Stdout, os.Stderr))
}
