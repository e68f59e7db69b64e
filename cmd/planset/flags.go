package main

import (
	"fmt"
	"slices"
	"strings"

	"planset/model/source"
)

// A flag is one option, declared once: parsing, checking and help read it here.
type flag struct {
	name    string
	value   string   // what follows it, for the help; empty for a switch
	allowed []string // values it takes; nil is anything
	text    string
}

// The flags of all commands.
var (
	flagVariant    = flag{"variant", "NAME", nil, "the size to make; the plain one is called standard"}
	flagVariantAll = flag{"variant", "NAME|all", nil, "the size to make, or all of them; the plain one is called standard"}
	flagPaper      = flag{"paper", "letter|a4|both", []string{"letter", "a4", "both"}, "the paper to print on"}
	flagUnits      = flag{"units", "in|mm", []string{"in", "mm"}, "inches with inch lumber, or millimeters with metric lumber"}
	flagUnitsBoth  = flag{"units", "in|mm|both", []string{"in", "mm", "both"}, "inches with inch lumber, millimeters with metric lumber, or both"}
	flagOut        = flag{"out", "DIR", nil, `where to write; a folder "out" beside the model by default`}
	flagLicensee   = flag{"licensee", "TEXT", nil, "whose copy it is, printed at the foot of every page"}
	flagJSON       = flag{"json", "", nil, "print JSON instead of text"}
	flagFormat     = flag{"format", "svg|dxf|pdf", []string{"svg", "dxf", "pdf"}, "svg by default; pdf gives one large sheet for each template"}
)

// values are the arguments of one call.
type values struct {
	model string
	set   map[string]string
}

// has reports whether a flag was given.
func (v values) has(name string) bool { _, ok := v.set[name]; return ok }

// or is a flag's value, or another when it was not given.
func (v values) or(name, other string) string {
	if s, ok := v.set[name]; ok {
		return s
	}
	return other
}

// parse reads the arguments of a command: one model and its flags, in any order,
// as --name value or --name=value.
func parse(c command, args []string) (values, error) {
	v := values{set: map[string]string{}}
	for i := 0; i < len(args); i++ {
		if !strings.HasPrefix(args[i], "-") || args[i] == "-" {
			if v.model != "" {
				return v, wrong{fmt.Sprintf("two models are given, %q and %q", v.model, args[i]), "planset makes one at a time"}
			}
			v.model = args[i]
			continue
		}
		name, value, joined := strings.Cut(strings.TrimLeft(args[i], "-"), "=")
		f, err := c.flag(name)
		if err != nil {
			return v, err
		}
		switch {
		case f.value == "" && joined:
			return v, wrong{fmt.Sprintf("--%s takes no value", name), ""}
		case f.value == "":
			v.set[name] = "true"
			continue
		case !joined && i+1 == len(args):
			return v, wrong{fmt.Sprintf("--%s needs a value", name), "write --" + name + " " + f.value}
		case !joined:
			i++
			value = args[i]
		}
		if f.allowed != nil && !slices.Contains(f.allowed, value) {
			return v, wrong{fmt.Sprintf("--%s cannot be %q", name, value), "write --" + name + " " + strings.Join(f.allowed, " or ")}
		}
		v.set[name] = value
	}
	if v.model == "" {
		return v, wrong{"no model given", fmt.Sprintf("write planset %s MODEL, where MODEL is a .toml file; planset %s --help tells more", c.name, c.name)}
	}
	return v, nil
}

// flag finds a flag of the command.
func (c command) flag(name string) (flag, error) {
	var known []string
	for _, f := range c.flags {
		if f.name == name {
			return f, nil
		}
		known = append(known, f.name)
	}
	w := wrong{text: fmt.Sprintf("%s has no flag --%s", c.name, name), help: "it has --" + strings.Join(known, ", --")}
	if near, ok := source.Nearest(name, known); ok {
		w.help = fmt.Sprintf("did you mean --%s?", near)
	}
	return flag{}, w
}
