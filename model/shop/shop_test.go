package shop_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/expr"
	"planset/model/shop"
	"planset/model/shop/shoptest"
)

const inch = 25.4

func chair() *model.Plan { return shoptest.Chair(expr.Inch, shoptest.Standard()) }

func part(t *testing.T, plan *model.Plan, code string) *model.Part {
	for _, p := range plan.Parts {
		if p.Code == code {
			return p
		}
	}
	t.Fatalf("no part %s", code)
	return nil
}

func TestOperationsFollowTheShape(t *testing.T) {
	plan := chair()
	has := func(code string, op shop.Operation) bool {
		return slices.Contains(shop.Operations(part(t, plan, code)), op)
	}
	assert.False(t, has("A", shop.Rip), "a stringer keeps the width as bought")
	assert.True(t, has("E", shop.Rip))
	assert.False(t, has("E", shop.RipNarrow), "3 1/2 in is no narrow strip")
	assert.True(t, has("G", shop.RipNarrow), "2 1/2 in is one")
	assert.True(t, has("J", shop.ShortPiece))
	assert.False(t, has("H", shop.ShortPiece))
	assert.True(t, has("C", shop.Taper))
	assert.True(t, has("D1", shop.Curve))
	assert.True(t, has("E", shop.EdgeBevel))
	assert.True(t, has("F", shop.Roundover))
	assert.True(t, has("H", shop.Pocket))
	assert.True(t, has("B", shop.Drill))
	matched := &model.Part{Length: 500, Holes: []model.Hole{{Matched: true, Diam: 10}}}
	assert.NotContains(t, shop.Operations(matched), shop.Drill, "a matched hole is not laid out in its part")
}

func TestCompoundCutIsNotTwoCuts(t *testing.T) {
	p := &model.Part{Length: 500}
	p.Ends[0] = model.EndCut{Miter: 0.1, Bevel: 0.1}
	ops := shop.Operations(p)
	assert.Contains(t, ops, shop.Compound)
	assert.NotContains(t, ops, shop.Miter)
	assert.NotContains(t, ops, shop.EndBevel)
}

func TestExactLimitIsNotShort(t *testing.T) {
	assert.NotContains(t, shop.Operations(&model.Part{Length: 12 * inch}), shop.ShortPiece)
	assert.Contains(t, shop.Operations(&model.Part{Length: 11.9 * inch}), shop.ShortPiece)
}

// Every message must keep to the editor's rules in every mixture of work, in
// both units: 35 words, no "be careful", hazard, consequence and way out.
func TestMessagesKeepTheRules(t *testing.T) {
	for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
		for mix := range 64 {
			plan := mixture(unit, mix)
			all := shop.Cautions(plan)
			assert.LessOrEqual(t, len(all), shop.MostCautions)
			for _, c := range all {
				name := fmt.Sprintf("mix %d: %s", mix, c.Key)
				assert.LessOrEqual(t, shop.Words(c), shop.MostWords, name)
				assert.NotEmpty(t, c.Hazard, name)
				assert.NotEmpty(t, c.Consequence, name)
				assert.NotEmpty(t, c.Avoid, name)
				text := strings.ToLower(c.Hazard + c.Consequence + c.Avoid)
				for _, no := range []string{"be careful", "compl", "certif", "tested", "supports"} {
					assert.NotContains(t, text, no, name)
				}
			}
		}
	}
}

// mixture is a plan with the kinds of work whose bits are set.
func mixture(unit expr.Unit, bits int) *model.Plan {
	st := &model.Stock{Thick: 25, Width: 140, Species: "western redcedar"}
	p := &model.Part{Code: "A", Stock: st, Length: 600, Width: 140, RoughWidth: 140, Quantity: 1, Mass: 20}
	plan := &model.Plan{Unit: unit, Parts: []*model.Part{p}, Stocks: []*model.Stock{st}}
	on := func(n int) bool { return bits>>n&1 == 1 }
	if on(0) {
		p.Width, p.RoughWidth = 60, 62
	}
	if on(1) {
		p.Tapers = []model.Taper{{}}
	}
	if on(2) {
		p.Length = 200
	}
	if on(3) {
		p.Arrises = []model.Arris{{Size: 6}}
		plan.Finish = model.Finish{Name: "oil", Oily: true}
	}
	if on(4) {
		plan.Placed = []*model.Placed{{Part: p}}
		plan.Measures = []model.Measure{{Name: "recline"}}
	}
	if on(5) {
		st.Species = "pressure-treated pine"
		j := &model.Joint{Hardware: &model.Hardware{Kind: model.CarriageBolt}, First: []*model.Part{p}, Glue: true, Clear: 9}
		plan.Joints = []*model.Joint{j}
	}
	return plan
}

func TestOnlyWhatIsThereIsWarnedOf(t *testing.T) {
	keys := func(plan *model.Plan) string {
		var out []string
		for _, c := range shop.Cautions(plan) {
			out = append(out, c.Key)
		}
		return strings.Join(out, " ")
	}
	bare := mixture(expr.Inch, 0)
	assert.NotContains(t, keys(bare), "router")
	assert.NotContains(t, keys(bare), "oily-rags")
	assert.NotContains(t, keys(bare), "kickback")
	assert.NotContains(t, keys(bare), "bolts")
	assert.NotContains(t, keys(bare), "use")
	assert.Contains(t, keys(mixture(expr.Inch, 8)), "router")
	assert.Contains(t, keys(mixture(expr.Inch, 8)), "oily-rags")
	treated := keys(mixture(expr.Inch, 32))
	assert.Contains(t, treated, "treated-wood")
	assert.NotContains(t, treated, "wood-dust")
	only := shop.Cautions(mixture(expr.Inch, 4))[0]
	assert.Equal(t, "kickback", only.Key)
	assert.Contains(t, only.Avoid, "12 in")
	assert.NotContains(t, only.Hazard, "taper")
	assert.Contains(t, shop.Cautions(mixture(expr.MM, 4))[0].Avoid, "300 mm")
}

func TestHazardOfDustFollowsTheWood(t *testing.T) {
	dust := func(species string) model.Caution {
		plan := mixture(expr.Inch, 0)
		plan.Stocks[0].Species = species
		for _, c := range shop.Cautions(plan) {
			if c.Key == "wood-dust" {
				return c
			}
		}
		return model.Caution{}
	}
	assert.Equal(t, model.Warn, dust("western redcedar").Signal)
	assert.Equal(t, model.Careful, dust("eastern white pine").Signal)
}

func TestAlertsAreTheGroupedMessages(t *testing.T) {
	plan := chair()
	all := shop.Cautions(plan)
	at := shop.AllAlerts(plan)
	warned, seen := 0, map[string]bool{}
	for _, s := range plan.Steps {
		assert.Equal(t, at[s.Number], shop.ForStep(plan, s))
		warns := false
		for _, c := range at[s.Number] {
			assert.Contains(t, all, c)
			warns = warns || c.Signal == model.Warn
			seen[c.Key] = true
		}
		if warns {
			warned++
		}
	}
	assert.LessOrEqual(t, 3*warned, len(plan.Steps))
	for _, c := range all {
		assert.True(t, seen[c.Key], "%s stands before no step", c.Key)
	}
	assert.Empty(t, shop.EditCautions(plan))
	require.NotEmpty(t, at[2])
	assert.Equal(t, "kickback", at[2][0].Key, "the slats are ripped and tapered in step 2")
}

func TestEditorCatches(t *testing.T) {
	plan := chair()
	plan.Cautions = []model.Caution{{Key: "mine", Signal: model.Careful, Hazard: strings.Repeat("word ", 40), Avoid: "Be careful."}}
	plan.Steps[0].Alert = []string{"nothing"}
	plan.Steps[3].Alert = []string{"oily-rags"}
	text := strings.Join(shop.EditCautions(plan), "\n")
	assert.Contains(t, text, "has 42 words")
	assert.Contains(t, text, "be careful")
	assert.Contains(t, text, `"nothing", which is not in the plan`)
	assert.Contains(t, text, `step 4 asks for caution "oily-rags", but nothing`)
}

func TestOwnMessageReplacesOurs(t *testing.T) {
	plan := chair()
	plan.Cautions = []model.Caution{{Key: "oily-rags", Signal: model.Danger, Hazard: "H", Consequence: "c", Avoid: "A"}}
	all := shop.Cautions(plan)
	assert.Equal(t, plan.Cautions[0], all[0], "gravest first")
	n := 0
	for _, c := range all {
		if c.Key == "oily-rags" {
			n++
		}
	}
	assert.Equal(t, 1, n)
	assert.Contains(t, shop.ForStep(plan, plan.Steps[12]), plan.Cautions[0], "at the step that oils")
}

func TestSumsAgree(t *testing.T) {
	plan := chair()
	assert.Empty(t, shop.Sums(plan, nil))
	laid := map[string]int{}
	for _, b := range shoptest.Cuts(plan).Boards {
		for _, p := range b.Pieces {
			laid[p.Code]++
		}
	}
	assert.Empty(t, shop.Sums(plan, laid))
}

func TestSumsCatch(t *testing.T) {
	for name, break1 := range map[string]func(*model.Plan){
		"A Stringer: the cut list has 3, 2 are placed":        func(p *model.Plan) { p.Parts[0].Quantity = 3 },
		"A Stringer: 2 left and 0 right":                      func(p *model.Plan) { p.Placed[0].Hand = model.LeftHand },
		"is added 2 times in the steps":                       func(p *model.Plan) { p.Steps[4].Add = append(p.Steps[4].Add, 0) },
		"is added 0 times in the steps":                       func(p *model.Plan) { p.Steps[3].Add = nil },
		"the list has 5, the joints use 4":                    func(p *model.Plan) { p.Hardware[0].Quantity, p.Hardware[0].Buy = 5, 5 },
		"3 are bought and 4 used":                             func(p *model.Plan) { p.Hardware[0].Buy = 3 },
		`"Legs to stringers" is left loose in step 4`:         func(p *model.Plan) { p.Steps[11].Tighten = nil },
		`joint "Arms to back rail" is made in no step`:        func(p *model.Plan) { p.Steps[10].Fasten = p.Steps[10].Fasten[:1] },
		`"Legs to stringers": 2 × 2 places is not its 1 fast`: func(p *model.Plan) { p.Joints[0].Fasteners = make([]model.Fastener, 1) },
	} {
		plan := chair()
		break1(plan)
		assert.Contains(t, strings.Join(shop.Sums(plan, nil), "\n"), name)
	}
}

func TestToolsFollowTheWork(t *testing.T) {
	plan := chair()
	all := shop.Tools(plan)
	uncommon := 0
	for _, tool := range all {
		assert.NotEmpty(t, tool.For, tool.Name)
		if tool.Uncommon {
			uncommon++
			assert.Contains(t, tool.Name, "Pocket-hole jig")
			assert.Equal(t, []string{"H"}, tool.Parts)
			assert.Equal(t, "wood 1″ thick", tool.Size)
		}
		assert.True(t, slices.IsSorted(tool.Steps), tool.Name)
	}
	assert.Equal(t, 1, uncommon)
	assert.False(t, slices.ContainsFunc(all, func(t shop.Tool) bool { return strings.Contains(t.Name, "Plug") }))
	n, opening := shop.Clamps(plan)
	assert.Equal(t, 2, n, "leg and stringer drilled together; the glued caps are held by their screws")
	assert.InDelta(t, 2*inch, opening, 1e-9, "leg and stringer, an inch each")
	plan.Joints[5].Hardware, plan.Joints[5].Bond = nil, true
	n, _ = shop.Clamps(plan)
	assert.Equal(t, 4, n, "two caps only glued, two clamps each")
	n, opening = shop.Clamps(mixture(expr.Inch, 0))
	assert.Zero(t, n)
	assert.Zero(t, opening)
}

// Drills come in 64ths of an inch or half millimeters.
func TestBits(t *testing.T) {
	bits := shop.Bits(chair())
	require.NotEmpty(t, bits)
	assert.Equal(t, "13⁄32″", bits[0].Size)
	assert.Equal(t, []string{"A", "B"}, bits[0].For)
	for i := 1; i < len(bits); i++ {
		assert.GreaterOrEqual(t, bits[i-1].Diam, bits[i].Diam)
	}
	for _, b := range shop.Bits(shoptest.Chair(expr.MM, shoptest.Standard())) {
		assert.InDelta(t, 0, b.Diam*2-float64(int(b.Diam*2+0.5)), 1e-9)
	}
}

// Board feet: 1 × 6 × 8 ft is 4, 5/4 × 6 × 10 ft is 6.25, 2 × 4 × 8 ft is 5 1/3
// (REFERENCE 2.1, computed from T × W × L / 12 in nominal sizes).
func TestBoardFeet(t *testing.T) {
	for _, c := range []struct{ t, w, feet, want float64 }{{1, 6, 8, 4}, {1.25, 6, 10, 6.25}, {2, 4, 8, 16.0 / 3}} {
		s := &model.Stock{Thick: 1, Width: 1, Nominal: [2]float64{c.t * inch, c.w * inch}}
		assert.InDelta(t, c.want, shop.BoardFeet(s, c.feet*12*inch), 1e-9)
	}
}

func TestAmountsForTheReader(t *testing.T) {
	assert.Equal(t, "25 lb", shop.Mass(expr.Inch, 11.3))
	assert.Equal(t, "11 kg", shop.Mass(expr.MM, 11.3))
	assert.Equal(t, "1 quart", shop.Volume(expr.Inch, 0.94))
	assert.Equal(t, "1 1⁄2 quarts", shop.Volume(expr.Inch, 0.95))
	assert.Equal(t, "1 gallon", shop.Volume(expr.Inch, 3.78))
	assert.Equal(t, "1.1 liters", shop.Volume(expr.MM, 1.05))
	assert.Equal(t, "10 sq ft", shop.Area(expr.Inch, 0.93))
	assert.Equal(t, "1, 3–5, 7, 8", shop.Numbers([]int{1, 3, 4, 5, 7, 8}))
}

func TestGlossaryHasOnlyWordsThatAreUsed(t *testing.T) {
	plan := chair()
	terms := shop.Glossary(plan, []string{"Rip the slats.", "A ripple in the railing", "Countersunk flush"})
	var words []string
	for _, g := range terms {
		words = append(words, g.Word)
		assert.LessOrEqual(t, len(strings.Fields(g.Text)), shop.MostTermWords, g.Word)
	}
	assert.Equal(t, []string{"Countersink", "Flush", "Rip", "Slat"}, words)
	assert.Equal(t, []int{0}, terms[2].In)
	plan.Terms = []model.Term{{Word: "Rip", Text: "mine"}, {Word: "Ogee", Text: "an S"}}
	terms = shop.Glossary(plan, []string{"rip"})
	require.Len(t, terms, 1)
	assert.Equal(t, "mine", terms[0].Text)
}

// A definition of every word of ours keeps to its length.
func TestAllDefinitionsAreShort(t *testing.T) {
	terms := shop.Glossary(&model.Plan{}, []string{strings.Join([]string{
		"along across arris batten bevel board foot carriage bolt chamfer clear wood clearance hole compound cut counterbore countersink",
		"crosscut datum dry fit end grain oil finish flush grain heel jig kerf match-drill miter offcut pilot plumb pocket hole proud",
		"rail recline rip roundover running dimension slat splay off square stringer stock taper template",
	}, " ")})
	assert.Greater(t, len(terms), 38)
	for _, g := range terms {
		assert.LessOrEqual(t, len(strings.Fields(g.Text)), shop.MostTermWords, g.Word)
	}
}

func TestSilentModelGetsOurWords(t *testing.T) {
	plan := chair()
	assert.Greater(t, len(shop.FinishText(plan)), 4)
	assert.Contains(t, shop.CareText(plan)[0], "bolt")
	plan.Finish.Text, plan.Care = []string{"mine"}, []string{"own"}
	assert.Equal(t, []string{"mine"}, shop.FinishText(plan))
	assert.Equal(t, []string{"own"}, shop.CareText(plan))
}
