package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"planset/model/source"
)

// The exit codes of the contract.
const (
	exitDone     = 0
	exitProblems = 1 // the plan has errors; nothing was written
	exitUsage    = 2 // called wrongly, or a file could not be read or written
)

// A wrong is a call that cannot be understood, or a file that cannot be used.
type wrong struct{ text, help string }

// Error returns the text without the help.
func (w wrong) Error() string { return w.text }

// app is one call of the program.
type app struct {
	out, err io.Writer
	flags    values
	problems source.List
	failed   bool // a finding that was told already forbids publication
}

// run does one call and returns its exit code.
func run(args []string, out, errw io.Writer) int {
	a := &app{out: out, err: errw}
	err := a.call(args)
	if a.problems.Len() > 0 {
		source.Write(errw, &a.problems, colorful(errw))
	}
	var w wrong
	switch {
	case errors.As(err, &w):
		fmt.Fprintf(errw, "planset: %s\n", w.text)
		if w.help != "" {
			fmt.Fprintf(errw, "  %s\n", w.help)
		}
		return exitUsage
	case err != nil:
		fmt.Fprintf(errw, "planset: %v\n", err)
		return exitUsage
	case a.problems.Failed() || a.failed:
		return exitProblems
	}
	return exitDone
}

// call finds the command and runs it.
func (a *app) call(args []string) error {
	if len(args) == 0 {
		return wrong{"no command given", "write planset --help to see what it can do"}
	}
	if args[0] == "--help" || args[0] == "-h" || args[0] == "help" {
		if len(args) > 1 {
			return a.helpFor(args[1])
		}
		overview(a.out)
		return nil
	}
	c, ok := commandNamed(args[0])
	if !ok {
		w := wrong{text: fmt.Sprintf("there is no command %q", args[0]), help: "the commands are " + strings.Join(commandNames(), ", ")}
		if near, ok := source.Nearest(args[0], commandNames()); ok {
			w.help = fmt.Sprintf("did you mean %q?", near)
		}
		return w
	}
	if slices.Contains(args[1:], "--help") || slices.Contains(args[1:], "-h") {
		return a.helpFor(c.name)
	}
	v, err := parse(c, args[1:])
	if err != nil {
		return err
	}
	a.flags = v
	return c.run(a)
}

func (a *app) helpFor(name string) error {
	c, ok := commandNamed(name)
	if !ok {
		return wrong{fmt.Sprintf("there is no command %q", name), "the commands are " + strings.Join(commandNames(), ", ")}
	}
	c.help(a.out)
	return nil
}

// terminal reports whether w is a terminal.
func terminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// colorful reports whether problems are shown in color: on a terminal, unless
// NO_COLOR says otherwise.
func colorful(w io.Writer) bool { return terminal(w) && os.Getenv("NO_COLOR") == "" }
