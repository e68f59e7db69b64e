package main

import (
	"fmt"
	"io"
	"strings"
)

// A command is one thing planset does.
type command struct {
	name  string
	short string
	long  string
	flags []flag
	run   func(*app) error
}

// commands are all of them, in the order of a plan's life.
func commands() []command {
	return []command{
		{"check", "look the model over as a maker would", checkText, []flag{flagVariantAll, flagUnits, flagJSON, flagReport}, (*app).check},
		{"facts", "print every solved number", factsText, []flag{flagVariant, flagUnits, flagJSON}, (*app).facts},
		{"build", "write the plan set as PDF", buildText, []flag{flagVariantAll, flagPaper, flagUnitsBoth, flagOut, flagLicensee}, (*app).build},
		{"templates", "write the full-size templates as files of their own", templatesText, []flag{flagVariant, flagUnits, flagFormat, flagOut}, (*app).templates},
	}
}

const buildText = `Build reads MODEL, solves it for each size and unit system asked for, and writes
one PDF for each edition. With no flags it makes the editions the model names.
A flag given replaces the model's choice: --variant all makes every size.

The files are called SLUG-VARIANT-UNITS-PAPER.pdf. Their paths are printed, one a
line. If the plan has errors, nothing is written. The same model gives the same
bytes.

  planset build examples/petrel-chair/plan.toml
  planset build chair.toml --variant all --units both --paper both --out print`

const checkText = `Check solves MODEL and looks for what a seasoned maker would see before timber is
cut: parts that overlap, screws that come out, gaps that close, feet that rock.
Findings are for the author; nothing of them goes into the plan set.

With --report FILE.pdf they are also set on pages, each with a picture of its
parts and the lines that waive it, and behind them which marks matter and what
the loads do.

  planset check chair.toml
  planset check chair.toml --variant all --json
  planset check chair.toml --report chair-report.pdf`

const factsText = `Facts solves MODEL and prints what came out: sizes, solved values, parts, holes,
hardware, boards, templates, pages, findings. With --json it is one object;
lengths are millimeters, angles degrees, masses kilograms.

  planset facts chair.toml
  planset facts chair.toml --variant tall --units mm --json`

const templatesText = `Templates writes the outline of each curved part at full size, one file each, for
a cutting machine, a roll printer or a drawing program. Millimeters in all three
formats.

  planset templates chair.toml --format dxf --out shop`

func commandNamed(name string) (command, bool) {
	for _, c := range commands() {
		if c.name == name {
			return c, true
		}
	}
	return command{}, false
}

func commandNames() []string {
	var out []string
	for _, c := range commands() {
		out = append(out, c.name)
	}
	return out
}

// overview prints what planset is and what it can do.
func overview(w io.Writer) {
	fmt.Fprint(w, `planset turns the model of a chair, table or bench into a plan set a stranger
can build from: drawings, full-size templates, lists, steps.

`)
	for _, c := range commands() {
		fmt.Fprintf(w, "  planset %-10s MODEL   %s\n", c.name, c.short)
	}
	fmt.Fprint(w, `
MODEL is a TOML file. A good start is to build an example and change a size:

  planset build examples/petrel-chair/plan.toml

planset COMMAND --help tells more. Exit codes: 0 done, 1 the plan has errors,
2 called wrongly or could not write.
`)
}

// help prints what one command does.
func (c command) help(w io.Writer) {
	fmt.Fprintf(w, "planset %s MODEL", c.name)
	for _, f := range c.flags {
		fmt.Fprintf(w, " [%s]", f.usage())
	}
	fmt.Fprintf(w, "\n\n%s\n\n", c.long)
	for _, f := range c.flags {
		fmt.Fprintf(w, "  %-26s %s\n", f.usage(), f.text)
	}
}

func (f flag) usage() string { return strings.TrimSpace("--" + f.name + " " + f.value) }
