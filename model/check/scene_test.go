package check_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/check"
	"planset/model/expr"
	"planset/model/geom"
)

// A plank is a square board of a scene: its name, which of the axes x, y, z its
// grain and its width run along ("xy", "zx", ...), its least corner and its size
// along x, y, z, in mm.
type plank struct {
	name     string
	runs     string
	at, size [3]float64
}

// p3 is a triple.
func p3(x, y, z float64) [3]float64 { return [3]float64{x, y, z} }

// scene writes a plan of planks as an author would, in cedar, with the joints and
// steps that are given, and solves it. A 4.5 screw, its pocket twin and an M8 bolt
// are at hand. Replacements come last, old by new.
func scene(t testing.TB, planks []plank, text string, replace ...string) *model.Plan {
	t.Helper()
	var b strings.Builder
	b.WriteString("unit = \"mm\"\n[plan]\ntitle = \"Scene\"\n")
	for _, h := range []string{
		"[hardware.screw]\nkind = \"wood screw\"\nsize = \"4.5\"\nmaterial = \"stainless steel\"\n",
		"[hardware.pocket]\nkind = \"pocket screw\"\nsize = \"4.5\"\nmaterial = \"stainless steel\"\n",
		"[hardware.bolt]\nkind = \"carriage bolt\"\nsize = \"M8\"\nwith = [\"washer\", \"nut\"]\nmaterial = \"stainless steel\"\n",
	} {
		b.WriteString(h)
	}
	for _, p := range planks {
		b.WriteString(p.text())
	}
	b.WriteString(text)
	whole := edited(t, b.String(), replace)
	return solved(t, fstest.MapFS{"plan.toml": {Data: []byte(whole)}}, "plan.toml", assembly.Options{Unit: expr.MM})
}

// text is a plank as stock, part and place.
func (p plank) text() string {
	const axes = "xyz"
	low := [3]string{"left", "front", "down"}
	a, w := strings.IndexByte(axes, p.runs[0]), strings.IndexByte(axes, p.runs[1])
	th := 3 - a - w
	// Thick is along × across: up an axis or down it, as those two follow.
	at := p.at[th]
	if w != (a+1)%3 {
		at += p.size[th]
	}
	return fmt.Sprintf("\n[stock.s_%[1]s]\nsection = [%[2]g, %[3]g]\nlengths = [\"6 m\"]\nspecies = \"western redcedar\"\n"+
		"[part.%[1]s]\nname = %[4]q\nstock = \"s_%[1]s\"\nlength = %[5]g\nends = [\"e1\", \"e2\"]\nedges = [\"s1\", \"s2\"]\nfaces = [\"f1\", \"f2\"]\n"+
		"[[place]]\npart = \"%[1]s\"\nlies = { e1 = %[6]q, s1 = %[7]q }\nmeets = { e1 = %[8]g, s1 = %[9]g, f1 = %[10]g }\n",
		p.name, p.size[th], p.size[w], strings.ToUpper(p.name[:1])+p.name[1:], p.size[a], low[a], low[w], p.at[a], p.at[w], at)
}

// joined writes a joint of screws or bolts.
func joined(name, from, into, more string) string {
	return fmt.Sprintf("\n[joint.%[1]s]\nname = %[2]q\nfrom = %[3]q\ninto = %[4]q\n%[5]s\n", name, strings.ToUpper(name[:1])+name[1:], from, into, more)
}

// step writes a step.
func step(more string) string { return "\n[[step]]\n" + more + "\n" }

// TestScene: a plank lies where it is said to, whichever way its grain runs.
func TestScene(t *testing.T) {
	for _, runs := range []string{"xy", "xz", "yx", "yz", "zx", "zy"} {
		p := scene(t, []plank{{"rail", runs, p3(10, 20, 30), p3(400, 300, 200)}}, "")
		require.Len(t, p.Placed, 1)
		box := p.Placed[0].Solid.Box3(geom.Home())
		assert.InDeltaSlice(t, []float64{10, 20, 30, 410, 320, 230}, []float64{box.Min.X, box.Min.Y, box.Min.Z, box.Max.X, box.Max.Y, box.Max.Z}, 1e-6, runs)
	}
}

// only is the one finding of a rule in a plan.
func only(t testing.TB, p *model.Plan, rule string) check.Finding {
	t.Helper()
	list := of(p, rule)
	require.Len(t, list, 1, rule)
	return list[0]
}
