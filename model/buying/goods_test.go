package buying_test

import (
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/buying"
	"planset/model/expr"
)

// TestCansAreTheLeastThatIsEnough compares with every number of cans.
func TestCansAreTheLeastThatIsEnough(t *testing.T) {
	sizes := []buying.Can{{Name: "small", Litres: 0.75}, {Name: "large", Litres: 5}, {Name: "middle", Litres: 2.5}}
	for need := 0.05; need < 20; need += 0.37 {
		least, fewest := math.Inf(1), 0
		for a := range 40 {
			for b := range 12 {
				for c := range 6 {
					sum, n := 0.75*float64(a)+2.5*float64(b)+5*float64(c), a+b+c
					if sum >= need-1e-9 && (sum < least-1e-9 || sum < least+1e-9 && n < fewest) {
						least, fewest = sum, n
					}
				}
			}
		}
		got, n := 0.0, 0
		for _, c := range buying.Cans(need, sizes) {
			got += c.Can.Litres * float64(c.N)
			n += c.N
		}
		require.InDelta(t, least, got, 1e-9, "%g liters", need)
		require.Equal(t, fewest, n, "%g liters", need)
	}
	assert.Empty(t, buying.Cans(0, sizes))
}

// TestFinishInCans: a quart more than a gallon is a gallon and a quart; half a
// litre still takes a can.
func TestFinishInCans(t *testing.T) {
	inch, metric := &model.Plan{Unit: expr.Inch}, &model.Plan{Unit: expr.MM}
	assert.Equal(t, "1 gallon and 1 quart", buying.FinishToBuy(inch, 4.5))
	assert.Equal(t, "2 quarts", buying.FinishToBuy(inch, 1.1))
	assert.Equal(t, "1 gallon", buying.FinishToBuy(inch, 3.7))
	assert.Equal(t, "1 can of 0.75 liters", buying.FinishToBuy(metric, 0.5))
	assert.Equal(t, "2 cans of 0.75 liters", buying.FinishToBuy(metric, 1.1))
	assert.Equal(t, "", buying.FinishToBuy(metric, 0))
}

// TestGlueOfTheChair: each arm cap, a quarter round of 3 1/2 in, is glued with
// its straight end, 1 by 3 1/2 in, to the leg.
func TestGlueOfTheChair(t *testing.T) {
	p := plan(t, os.DirFS("../../examples"), "petrel-chair/plan.toml", assembly.Options{Unit: expr.Inch, Variant: "standard"})
	words, area := buying.GlueToBuy(p)
	assert.InDelta(t, 2*1*3.5*25.4*25.4, area, 1)
	assert.Equal(t, "1 bottle of 4 oz", words)
	p.Joints = nil
	words, area = buying.GlueToBuy(p)
	assert.True(t, words == "" && area == 0)
}
