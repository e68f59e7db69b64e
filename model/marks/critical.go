package marks

import (
	"fmt"
	"math"
	"strings"

	"planset/model"
	"planset/model/expr"
)

// A Mark is one of the few that are worth a sign on a drawing.
type Mark struct {
	Part   *model.Part // on whose drawing it goes
	Hole   string      // name of the hole it is at, "" for others
	What   string      // "heel cut"
	Value  string      // name of the value it changes most
	Change float64     // for one step: degrees or mm, without sign
	Text   string      // one line for the drawing, in the reader's units
}

// How many marks are shown, and from what part of a limit on.
const (
	aPart     = 2
	aPlan     = 8
	worthSign = 0.1
)

// Critical returns the few marks that change a value most, the worst first: at
// most two a part and eight a plan, only such as use up a tenth of a limit with
// one step.
func Critical(p *model.Plan) []Mark { return Rank(p).Critical() }

// Critical returns the few marks of a table as the function of that name does.
func (t *Table) Critical() []Mark {
	var out []Mark
	count := map[string]int{}
	for i := range t.Rows {
		r := &t.Rows[i]
		if len(out) == aPlan || r.Score < worthSign {
			break
		}
		if count[r.Part.Key] == aPart {
			continue
		}
		count[r.Part.Key]++
		k := t.worstValue(r)
		m := Mark{Part: r.Part, Hole: r.Hole, What: r.What, Value: t.Values[k].Name, Change: math.Abs(r.change(k, t.Values[k]))}
		m.Text = t.say(r, k, m.Change)
		out = append(out, m)
	}
	return out
}

// worstValue is the value of which a row uses up most.
func (t *Table) worstValue(r *Row) int {
	best := 0
	for k, v := range t.Values {
		if math.Abs(r.change(k, v))/v.limit() > math.Abs(r.change(best, t.Values[best]))/t.Values[best].limit()+1e-12 {
			best = k
		}
	}
	return best
}

// say tells what one step of a mark does.
func (t *Table) say(r *Row, k int, change float64) string {
	v := t.Values[k]
	step := t.Unit.Long(t.Step)
	text := ""
	switch {
	case v.Name == rocking:
		text = fmt.Sprintf("each %s off on one side alone lets it rock by %s", step, t.Unit.LongTo(change, expr.Fine))
	case v.Angle:
		text = fmt.Sprintf("each %s off changes %s by %s", step, v.Title, expr.Angle(change*math.Pi/180, 0.1))
	default:
		text = fmt.Sprintf("each %s off changes %s by %s", step, v.Title, t.Unit.LongTo(change, expr.Fine))
	}
	if r.Matched {
		text += ", unless " + strings.SplitN(r.Harmless, ",", 2)[0]
	}
	return text
}
