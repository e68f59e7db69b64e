package assembly_test

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
)

// solve solves one of the examples.
func solve(t testing.TB, name string, opt assembly.Options) *model.Plan {
	t.Helper()
	var problems source.List
	d := reading.Load(os.DirFS("../../examples"), name, &problems)
	require.NotNil(t, d, told(&problems))
	p := assembly.Solve(d, opt, &problems)
	require.False(t, problems.Failed(), told(&problems))
	return p
}

func told(l *source.List) string {
	var b strings.Builder
	source.Write(&b, l, false)
	return b.String()
}

func TestShow(t *testing.T) {
	p := solve(t, "petrel-chair/plan.toml", assembly.Options{Unit: expr.Inch})
	for _, m := range p.Measures {
		fmt.Printf("%-24s %s\n", m.Name, m.Value.Text(expr.Inch))
	}
	for _, mp := range p.Parts {
		fmt.Printf("%-3s %-12s q%d %v  %.2f x %.2f x %.2f in  %.3f kg tmpl %v\n", mp.Code, mp.Name, mp.Quantity, mp.Hand, mp.Thick/25.4, mp.Width/25.4, mp.Length/25.4, mp.Mass, mp.Template)
		for _, h := range mp.Holes {
			fmt.Printf("      %-22s %-9s %7.3f %7.3f %6.3f %s%d d %.3f deep %.2f m %v\n", h.Name, h.Kind, h.Along/25.4, h.Across/25.4, h.Thick/25.4, h.Into, h.From, h.Diam/25.4, h.Depth/25.4, h.Matched)
		}
	}
	for _, h := range p.Hardware {
		fmt.Println(h.Code, assembly.HardwareName(h, expr.Inch), h.Quantity, h.Buy, h.Sum)
	}
	for _, j := range p.Joints {
		fmt.Println(j.Key, j.Kind, j.Places, j.Each, len(j.Fasteners), j.NutSide, j.Mouth)
	}
	for _, pl := range p.Placed {
		o := pl.Pose.Origin
		fmt.Printf("%d %s %s  %.2f %.2f %.2f\n", pl.Index, pl.Part.Code, pl.Hand, o.X/25.4, o.Y/25.4, o.Z/25.4)
	}
	_ = math.Pi
}
