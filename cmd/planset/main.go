// Command planset turns the TOML model of a chair, table or bench into a
// printable plan set.
//
// It touches arguments, files, the terminal and exit codes; nothing else does.
package main

import "os"

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }
