package sheets

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/inspect"
	"planset/model"
	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/shop"
	"planset/model/shop/shoptest"
	"planset/model/source"
)

// solved reads and solves one of the examples.
func solved(t *testing.T, name string, opt assembly.Options) *model.Plan {
	t.Helper()
	var problems source.List
	draft := reading.Load(os.DirFS("../../examples"), name, "", &problems)
	var told strings.Builder
	if draft != nil {
		if plan := assembly.Solve(draft, opt, &problems); plan != nil {
			return plan
		}
	}
	source.Write(&told, &problems, false)
	require.Fail(t, "the example does not solve", told.String())
	return nil
}

// petrel is the chair of the examples as an input.
func petrel(t *testing.T, unit expr.Unit, paper string) Input {
	const name = "petrel-chair/plan.toml"
	plan := solved(t, name, assembly.Options{Unit: unit})
	tall := solved(t, name, assembly.Options{Unit: unit, Variant: "tall"})
	return Input{Plan: plan, Others: []*model.Plan{tall}, Cuts: shoptest.Cuts(plan), Paper: paper}
}

func TestPetrelBook(t *testing.T) {
	for name, in := range map[string]Input{"inch": petrel(t, expr.Inch, "letter"), "metric": petrel(t, expr.MM, "a4")} {
		book, problems := compose(in, textSheets())
		assert.Empty(t, problems)
		for _, p := range book.Pages {
			corner := geom.Pt{X: (p.Size.W - fieldW) / 2, Y: (p.Size.H - fieldH) / 2}
			field := geom.Box{Min: corner, Max: corner.Add(geom.Pt{X: fieldW, Y: fieldH})}.Grow(0.36)
			assert.Empty(t, inspect.Outside(p.Items, field), "%s page %s", name, p.Name)
			assert.Empty(t, inspect.Collisions(p.Items), "%s page %s", name, p.Name)
			assert.NotContains(t, says(p), "_", "a name of the file on page %s", p.Name)
		}
		assert.Empty(t, shop.EditCautions(in.Plan))
		assert.Empty(t, shop.Sums(in.Plan, nil))
	}
}
