package sheets

import (
	"fmt"
	"math"
	"strings"

	"planset/layouts/tiles"
	"planset/model"
	"planset/model/expr"
)

// The errors of print and paper, as shares of a length or in mm. A good home
// printer keeps within a quarter of a percent, a plain one within half; fitting a
// page of one paper on the other costs 3 to 4 %. A taped joint is off by half a
// millimetre, one way or the other.
const (
	goodPrinter  = 0.0025
	plainPrinter = 0.005
	fitToPage    = 0.03
	joint        = 0.5
	barRead      = 25.4 / 64 // as finely as a rule is read, on the bar of the print check
)

// ErrorBudget tells, from the longest template of a plan, what an error of the
// printer costs at that length, what of it the bars of the print check can tell
// and which tape checks catch the rest: one paragraph an entry, none when the
// plan has no templates.
func ErrorBudget(p *model.Plan) []string {
	t, length := longestTemplate(p)
	if length == 0 {
		return nil
	}
	u := p.Unit
	name := fmt.Sprintf("the %s (%s)", strings.ToLower(t.Name), t.Code)
	out := []string{fmt.Sprintf("The longest template is %s, %s. Over that length a good printer, 1⁄4 %% off, is wrong by %s; one that is 1⁄2 %% off by %s. "+
		"“Fit to page” shrinks by 3 to 4 %%: %s and more.", name, u.Long(length), slight(u, goodPrinter*length), slight(u, plainPrinter*length), slight(u, fitToPage*length))}
	out = append(out, fmt.Sprintf("A bar of %s read to %s vouches for %s over %s, no better. So no bar proves a long template; the tape does.",
		u.Long(barOf(u)), slight(u, barRead), slight(u, barRead/barOf(u)*length), u.Long(length)))
	return append(append(out, paperBudget(u, t)...), checksOf(p, t)...)
}

// longestTemplate returns the template that is longest and its length in mm, 0
// when there is none.
func longestTemplate(p *model.Plan) (best tiles.Template, length float64) {
	for _, t := range Templates(p) {
		if b := t.Outline.Box(); math.Max(b.W(), b.H()) > length {
			best, length = t, math.Max(b.W(), b.H())
		}
	}
	return best, length
}

// paperBudget tells over how much of the template errors of paper add up.
func paperBudget(u expr.Unit, t tiles.Template) []string {
	run, joints := 0.0, 0
	pieces := false
	for _, paper := range []tiles.Paper{tiles.Letter(), tiles.A4()} {
		l := tiles.Lay(t, paper)
		pieces = pieces || len(l.Breaks) > 0
		if r, n := l.LongestRun(); r > run {
			run, joints = r, n
		}
	}
	switch {
	case pieces && joints == 0:
		return []string{fmt.Sprintf("It is printed in pieces that you lay out with the tape. The largest is %s long: there 1⁄2 %% is %s, and no joint adds to it.",
			u.Long(run), slight(u, plainPrinter*run))}
	case joints > 0:
		return []string{fmt.Sprintf("It is taped over %d %s. Each may be half a millimeter off: all of them one way, %s; at random, about %s.",
			joints, plural(joints, "joint", "joints"), slight(u, joint*float64(joints)), slight(u, joint*math.Sqrt(float64(joints))))}
	}
	return []string{"It fits on one sheet, so that no joint adds to it."}
}

// checksOf names the tape checks of the longest template, and what is safe from
// any error of paper.
func checksOf(p *model.Plan, t tiles.Template) []string {
	var out []string
	look := tiles.Look{Unit: p.Unit}
	if checks := tiles.Lay(t, tiles.Letter()).Checks(look); len(checks) > 0 {
		for i, c := range checks {
			checks[i], _, _ = strings.Cut(c, " (")
		}
		out = append(out, "These tape checks catch it before you cut: "+strings.Join(checks, "; ")+". The tape always wins.")
	}
	for _, h := range t.Holes {
		if h.Matched {
			return append(out, "Holes marked “match-drill” are drilled through the part they meet. The paper only shows about where; do not lay them out.")
		}
	}
	return out
}

// barOf is the length of the long bar of the print check.
func barOf(u expr.Unit) float64 {
	if u == expr.MM {
		return barMM
	}
	return barIn
}

// slight writes a small length: inches to 1/64, and to 1/16 from a quarter inch on.
func slight(u expr.Unit, mm float64) string {
	switch {
	case u == expr.MM && mm >= 10, u == expr.Inch && mm >= 6:
		return u.LongTo(mm, expr.Coarse)
	case u == expr.MM:
		return u.LongTo(math.Max(mm, 0.1), expr.Drill)
	}
	return u.LongTo(mm, expr.Drill)
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
