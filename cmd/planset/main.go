// Command planset turns the TOML model of a chair, table or bench into a
// printable plan set.
//
// It touches arguments, files, the terminal and exit codes; nothing else does.
package main

import (
	"os"
	"runtime/debug"
)

func main() {
	roomy()
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// roomy lets the heap grow to five times what is in use before it is swept: an
// edition is made a fifth sooner so, in some 85 MB instead of 55.
func roomy() { debug.SetGCPercent(400) }
