package assembly_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"

	"planset/model/expr"
)

// times repeats a form, # standing for the number and @ for the one before.
func times(n int, form string) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.NewReplacer("#", fmt.Sprint(i+1), "@", fmt.Sprint(i)).Replace(form))
	}
	return b.String()
}

// hundred writes a line a hundred times, ? standing for the number.
func hundred(line string) string {
	return strings.ReplaceAll(times(100, strings.ReplaceAll(line, "?", "#")), "?", "#")
}

// waves is the wavy way back along the top of a board, in n arcs.
func waves(n int) string {
	var b strings.Builder
	fmt.Fprintf(&b, ", { to = [9000, 90] }")
	for i := range n - 1 {
		x := 9000 - float64(i+1)*9000/float64(n)
		fmt.Fprintf(&b, ", { to = [%.2f, 90], via = [%.2f, 80] }", x, x+4500/float64(n))
	}
	return b.String()
}

const endsBase = `unit = "mm"
[plan]
title = "Much"
[stock.b]
section = [20, 100]
[hardware.screw]
kind = "wood screw"
size = "4"
`

// TestSolveEnds asks for as much as the limits allow, and more: each plan is
// solved or refused while a person waits.
func TestSolveEnds(t *testing.T) {
	row := func(key string, n int, toward string) string {
		return fmt.Sprintf("[part.%s]\nstock = \"b\"\nlength = 300\n[[place]]\npart = %q\nlies = { left = \"left\", front = \"front\" }\nmeets = { front = 0, bottom = 0 }\nrow = { toward = %q, count = %d, gap = 0 }\n", key, key, toward, n)
	}
	for name, text := range map[string]string{
		"pieces":  row("a", 500, "up") + row("c", 500, "rear"),
		"joints":  row("a", 500, "up") + row("c", 500, "up") + times(200, "[joint.j#]\nfrom = \"a\"\ninto = \"c\"\nhardware = \"screw\"\n"),
		"screws":  row("a", 500, "up") + "[joint.j]\nfrom = \"a\"\ninto = \"a\"\nhardware = \"screw\"\ncount = 40\n",
		"places":  "[part.a]\nstock = \"b\"\nlength = 300\n" + times(400, "[[place]]\npart = \"a\"\nlies = { left = \"left\", front = \"front\" }\nmeets = { front = 0, bottom = 0 }\nrow = { toward = \"up\", count = 500, gap = 0 }\naround = 500\n"),
		"fan":     "[part.a]\nstock = \"b\"\nlength = \"900 - rank*1 mm\"\nend.right = { shape = \"half round\" }\n[[place]]\npart = \"a\"\nlies = { left = \"down\", bottom = \"front\" }\nmeets = { bottom = 0, left = 0 }\nfan = { count = 500, gap = 1, turn = \"0.01 deg\" }\n",
		"chain":   "[derive]\nd0 = 1\n" + times(1999, "d# = \"1 + 0*d@\"\n"),
		"long":    "[derive]\nd0 = 1\n" + times(900, "e# = \""+strings.Repeat("d0+", 300)+"1\"\n"),
		"groups":  "[group.g0]\n" + times(199, "[group.g#]\nin = \"g@\"\nat = { up = 1 }\nlean = \"# deg\"\n"),
		"outline": times(8, "[part.p#]\nstock = \"b\"\noutline = [{ from = [0, 0] }"+times(198, ", { to = [#, \"(#-200)^2/400 - 100\"] }")+"]\n"),
		"arcs":    times(8, "[part.p#]\nstock = \"b\"\noutline = [{ from = [0, 0] }, { to = [9000, 0] }"+waves(197)+"]\n"),
		"holes":   times(4, "[part.p#]\nstock = \"b\"\nlength = 5000\n"+hundred("hole.h? = { at = [\"20*? + 30\", 50], diameter = 8 }\n")),
		"notches": times(4, "[part.p#]\nstock = \"b\"\nlength = 9000\n"+hundred("notch.n? = { edge = \"front\", at = \"80*? + 30\", long = 20, deep = 20 }\n")),
		"grooves": times(4, "[part.p#]\nstock = \"b\"\nlength = 9000\n"+hundred("groove.n? = { face = \"top\", along = [\"80*? + 30\", \"80*? + 50\"], across = [2, 98], deep = 3 }\n")),
		"goals":   "[size]\ns = 300\n" + row("a", 500, "up") + times(10, "[goal.g#]\nchoose = \"s\"\nvalue = \"a.last.top.up + s\"\nis = 10300\n"),
		"clear":   row("a", 500, "rear") + times(199, "[part.c#]\nstock = \"b\"\nlength = 300\n[[place]]\npart = \"c#\"\nlies = { left = \"left\", front = \"front\" }\nmeets = { front = 0 }\nclear = { bottom = \"a\", by = 1 }\n"),
	} {
		t.Run(name, func(t *testing.T) {
			start := time.Now()
			p, problems := solveFiles(fstest.MapFS{"plan.toml": {Data: []byte(endsBase + text)}}, expr.MM)
			assert.True(t, p != nil || problems.Failed())
			assert.Less(t, time.Since(start), slow)
			t.Logf("%v, solved %v, %d problems", time.Since(start).Round(time.Millisecond), p != nil, problems.Len())
			if testing.Verbose() && p == nil {
				t.Log(strings.SplitN(told(problems), "\n", 2)[0])
			}
		})
	}
}
