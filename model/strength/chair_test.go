package strength_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/reading"
	"planset/model/source"
	"planset/model/strength"
)

func solve(t testing.TB, name string, opt assembly.Options) *model.Plan {
	t.Helper()
	var problems source.List
	d := reading.Load(os.DirFS("../../examples"), name, "", &problems)
	require.NotNil(t, d)
	p := assembly.Solve(d, opt, &problems)
	var b strings.Builder
	source.Write(&b, &problems, false)
	require.False(t, problems.Failed(), b.String())
	return p
}

func TestShow(t *testing.T) {
	for _, n := range []string{"petrel-chair/plan.toml", "petrel-side-table/plan.toml", "petrel-footstool/plan.toml"} {
		r := strength.All(solve(t, n, assembly.Options{}), strength.Usual())
		fmt.Println(n, r.Skipped)
		for _, s := range r.Swells { fmt.Printf("swell %s %.1f %.2f %.2f\n", s.Part.Code, s.Width, s.Change, s.Quarter) }
		for _, g := range r.Gaps { fmt.Printf("gap %v %.2f %.2f\n", g.Parts, g.Made, g.Left) }
		for _, g := range r.Restraints { fmt.Printf("held %s on %s %s %.1f %.2f\n", g.Part.Code, g.On.Code, g.Joint.Key, g.Apart, g.Change) }
		for _, b := range r.Boards { fmt.Printf("board %s %-20s stress %.2f margin %.2f used %.2f sag %.2f span %.0f at %.0f\n", b.Part.Code, b.Case, b.Stress, b.Margin, b.Used, b.Sag, b.Span, b.At) }
		for _, j := range r.Joints { fmt.Printf("joint %-18s %-20s shear %.0f pull %.0f Z %.0f W %.0f mode %s used %.2f end %v\n", j.Joint.Key, j.Case, j.Shear, j.Pull, j.Z, j.W, j.Mode, j.Used, j.EndGrain) }
		for _, x := range r.Tips { fmt.Printf("tip %-10s %-60s hold %.0f tip %.0f margin %.2f slope %.1f\n", x.Way, x.What, x.Holding, x.Tipping, x.Margin, x.Slope*57.2958) }
	}
}

func BenchmarkAll(b *testing.B) {
	p := solve(b, "petrel-chair/plan.toml", assembly.Options{})
	l := strength.Usual()
	for b.Loop() {
		strength.All(p, l)
	}
}
