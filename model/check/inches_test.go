package check_test

import (
	"fmt"
	"slices"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/check"
	"planset/model/expr"
	"planset/model/wood"
)

// inches solves the grate for a reader in inches, with 5/16 in bolts and #8
// screws: other hardware in the same wood.
func inches(t testing.TB, sz sizes, replace ...string) *model.Plan {
	t.Helper()
	text := edited(t, grate, append(replace, "size     = \"4.5\"\n", "size     = \"#8\"\n", "size     = \"M8\"\n", "size     = \"5/16\"\n"))
	return solved(t, fstest.MapFS{"plan.toml": {Data: []byte(text)}}, "plan.toml", assembly.Options{Unit: expr.Inch, Sizes: sz})
}

// TestInches: the same limits in the reader's other unit, with gauges and
// fractions: #8 is 0.164 in, a 5/16 in bolt wants 11/32 to 3/8 in.
func TestInches(t *testing.T) {
	hole := func(in string) []string {
		return []string{`hole.one = { at = ["bolt_x", "bolt_y"], for = "bolt" }`, `hole.one = { at = ["bolt_x", "bolt_y"], diameter = "` + in + ` in" }`}
	}
	pilot := func(in string) []string {
		return []string{`inset    = "inset"`, "inset = \"inset\"\npilot = \"" + in + " in\""}
	}
	for _, c := range []struct {
		rule             string
		bad, good, mends edit
		want             check.Finding
	}{
		{"screw-end", with(sizes{"slat_at": 3.2}), with(sizes{"slat_at": 3.3}), with(sizes{"slat_at": 3.2 + 25.4/16}),
			find(check.Warning, `Rail A: a screw of "Slat to rail" sits 23⁄32″ from the end; 3⁄4″ keeps the wood from splitting`, "move it in by 1⁄16″", "A")},
		{"screw-edge", with(sizes{"inset": 9.4}), with(sizes{"inset": 9.53}), with(sizes{"inset": 9.4 + 25.4/16}), // 2.5 of 4.17 mm are 10.41, and 3/8 in will do
			find(check.Warning, `Slat B: a screw of "Slat to rail" sits 3⁄8″ from the edge; 13⁄32″ keeps the wood from splitting`, "move it in by 1⁄16″", "B")},
		{"bolt-edge", with(sizes{"bolt_y": 11}), with(sizes{"bolt_y": 11.2}), with(sizes{"bolt_y": 11 + 25.4/16}), // 1.5 of 7.94 mm are 11.91, less 1/32 in
			find(check.Warning, `Cheek C: a bolt of "Cheeks" sits 7⁄16″ from the edge; 15⁄32″ is the least`, "move it in by 1⁄16″", "C")},
		{"bolt-hole", with(nil, hole("0.341")...), with(nil, hole("0.342")...), with(nil, hole("11/32")...), // 0.3125 and 1/32 in, less 0.06 mm
			find(check.Warning, `Cheeks: a hole of 0.341″ for a bolt of 5⁄16″; it does not push in`, "drill 11⁄32″", "C")},
		{"bolt-hole", with(nil, hole("0.378")...), with(nil, hole("0.377")...), with(nil, hole("11/32")...), // and 1/16 in
			find(check.Warning, `Cheeks: a hole of 0.378″ for a bolt of 5⁄16″: one bolt alone lets it turn`, "drill 11⁄32″", "C")},
		{"pilot", with(sizes{"slat_w": 60, "slat_at": 50}, pilot("0.066")...), with(sizes{"slat_w": 60, "slat_at": 50}, pilot("0.068")...), with(sizes{"slat_w": 60, "slat_at": 50}, pilot("5/64")...), // 0.62 of 0.112 in
			find(check.Warning, `Slat to rail: a pilot of 0.066″ for a screw of #8 in Rail A splits it`, "make the pilot 5⁄64″, or leave the key out", "A")},
	} {
		t.Run(c.want.Text, func(t *testing.T) {
			one(t, inches(t, c.bad.sizes, c.bad.text...), c.rule, c.want)
			quiet(t, inches(t, c.good.sizes, c.good.text...), c.rule)
			quiet(t, inches(t, c.mends.sizes, c.mends.text...), c.rule)
		})
	}
}

// TestFoundFastenersHold: what the solver picks by itself is never a fault of
// length, size or drill, for any bolt and screw of the tables and any wood that
// takes it.
func TestFoundFastenersHold(t *testing.T) {
	for _, b := range wood.Bolts() {
		for _, thick := range []float64{38, 95, 150} {
			if _, _, ok := wood.BoltLength(b.Size, thick+20, wood.WideWasher); !ok {
				continue
			}
			p := built(t, sizes{"bolt_x": 100}, "size     = \"M8\"", fmt.Sprintf("size     = %q", b.Size), "section = [40, 100]", fmt.Sprintf("section = [%g, 100]", thick))
			none(t, p, fmt.Sprintf("%s in %g", b.Size, thick), "bolt-length", "bolt-hole", "length-sold")
		}
	}
	for _, sc := range wood.Screws() {
		for _, held := range []float64{20, 38} {
			if _, _, ok := wood.ScrewLength(sc.Size, wood.ScrewStack{Held: held, Holding: 90}); !ok {
				continue
			}
			for _, species := range []string{"western redcedar", "white oak"} {
				p := built(t, nil, "size     = \"4.5\"", fmt.Sprintf("size     = %q", sc.Size), "section = [20, 100]", fmt.Sprintf("section = [%g, 100]", held),
					"lengths = [\"2.4 m\"]\nspecies = \"western redcedar\"\n\n[hardware", "lengths = [\"2.4 m\"]\nspecies = \""+species+"\"\n\n[hardware")
				require.NotEmpty(t, p.Joints)
				none(t, p, fmt.Sprintf("%s in %g of %s", sc.Size, held, species), "screw-tip", "screw-bite", "pilot", "length-sold")
			}
		}
	}
}

// none asks that some rules find nothing in a plan.
func none(t testing.TB, p *model.Plan, about string, rules ...string) {
	t.Helper()
	for _, f := range check.All(p, nil) {
		assert.False(t, slices.Contains(rules, f.Rule), "%s: %s", about, f.Text)
	}
}
