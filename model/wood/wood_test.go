package wood

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func species(t *testing.T, name string) Wood {
	w, ok := Species(name)
	require.True(t, ok, name)
	return w
}

// TestStrengthAgreesWithTheMetricTable compares rows typed from the inch table
// (Wood Handbook, Table 5-3b) with the separately printed metric one (Table
// 5-3a): 2 % on strength and stiffness, as the two tables round differently.
func TestStrengthAgreesWithTheMetricTable(t *testing.T) {
	rows := []struct {
		name         string
		sg, mor, moe float64 // kPa and MPa as printed
	}{
		{"baldcypress", 0.46, 73000, 9900}, {"western redcedar", 0.32, 51700, 7700},
		{"northern white-cedar", 0.31, 45000, 5500}, {"Douglas-fir, coast", 0.48, 85000, 13400},
		{"western larch", 0.52, 90000, 12900}, {"eastern white pine", 0.35, 59000, 8500},
		{"loblolly pine", 0.51, 88000, 12300}, {"longleaf pine", 0.59, 100000, 13700},
		{"white oak", 0.68, 105000, 12300}, {"redwood, old-growth", 0.40, 69000, 9200},
		{"redwood, young-growth", 0.35, 54000, 7600},
	}
	for _, r := range rows {
		w := species(t, r.name)
		assert.Equal(t, r.sg, w.SG12, r.name)
		assert.InEpsilon(t, r.mor/1000, w.MOR, 0.02, r.name)
		assert.InEpsilon(t, r.moe, w.MOE, 0.02, r.name)
	}
}

// TestDensity checks the published weights: western redcedar 22.4 lb/ft³ and
// baldcypress 31.4 within 3 % (floridacypress.com technical page).
func TestDensity(t *testing.T) {
	const poundsPerFoot = 16.018463 // kg/m³ in one lb/ft³
	assert.InEpsilon(t, 22.4*poundsPerFoot, species(t, "western redcedar").Density(12), 0.005)
	assert.InEpsilon(t, 31.4*poundsPerFoot, species(t, "baldcypress").Density(12), 0.03)
}

func TestMassIsDensityTimesVolume(t *testing.T) {
	w := species(t, "teak")
	assert.InDelta(t, w.Density(12)*0.001, w.Mass(1e6, 12), 1e-12)
}

// TestDryMassIsKept: the oven-dry wood in a board is the same at any moisture,
// so gravity times volume does not change, and the gravity on green volume is
// the printed one within its last digit and the spread of the tables.
func TestDryMassIsKept(t *testing.T) {
	for _, name := range SpeciesNames() {
		w := species(t, name)
		assert.InDelta(t, w.SG12, w.Gravity(12), 1e-12, name)
		assert.Equal(t, w.Gravity(30), w.Gravity(60), "no swelling above saturation")
		dry := w.Gravity(0) * (1 - w.Volumetric/100)
		assert.InDelta(t, w.Gravity(30), dry, 1e-12, name)
		assert.InDelta(t, w.SGGreen, w.Gravity(30), 0.035, name)
	}
}

func TestEverySpeciesIsWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, name := range SpeciesNames() {
		w := species(t, strings.ToUpper(name))
		assert.Equal(t, name, w.Name)
		assert.False(t, seen[plain(name)], "twice: %s", name)
		seen[plain(name)] = true
		assert.Less(t, w.Radial, w.Tangential, "wood moves more along the rings: %s", name)
		assert.Greater(t, w.Volumetric, w.Tangential, name)
		assert.Less(t, w.CR, w.CT, name)
		assert.Greater(t, w.SG12, w.SGGreen, name)
		assert.Greater(t, w.MOR, 0.0, name)
		assert.Greater(t, w.MOE, 0.0, name)
		for _, s := range []Source{w.Strength, w.Shrinkage, w.Coefficients} {
			assert.NotEmpty(t, s.Where, name)
		}
	}
	for short, long := range map[string]string{
		"cedar": "western redcedar", "Western Red Cedar": "western redcedar", "southern pine": "loblolly pine",
		"oak": "white oak", "Douglas fir": "Douglas-fir, coast", "northern white cedar": "northern white-cedar",
		"redwood": "redwood, young-growth", "Port Orford cedar": "Port-Orford-cedar", "yellow cedar": "yellow-cedar",
	} {
		assert.Equal(t, long, species(t, short).Name)
	}
	_, ok := Species("granite")
	assert.False(t, ok)
}

// TestCoefficients checks Table 13-5 (Wood Handbook, FPL-GTR-190) and the rule
// of its footnote, which gives those rows from the shrinkage to the fifth
// decimal; black walnut and white fir have both tables published.
func TestCoefficients(t *testing.T) {
	walnut, fir := species(t, "black walnut"), species(t, "white fir")
	assert.Equal(t, [2]float64{0.00190, 0.00274}, [2]float64{walnut.CR, walnut.CT})
	assert.InDelta(t, walnut.CR, Coefficient(5.5, 30), 0.5e-5)
	assert.InDelta(t, walnut.CT, Coefficient(7.8, 30), 0.5e-5)
	assert.InDelta(t, fir.CR, Coefficient(3.3, 30), 0.5e-5)
	assert.InDelta(t, fir.CT, Coefficient(7.0, 30), 0.5e-5)
	oak := species(t, "white oak")
	assert.Equal(t, [2]float64{0.00180, 0.00365}, [2]float64{oak.CR, oak.CT}) // commercial white oak
	cedar := species(t, "western redcedar")
	assert.InDelta(t, cedar.CT, Coefficient(cedar.Tangential, 22), 0.5e-5)
	assert.InDelta(t, cedar.CR, Coefficient(cedar.Radial, 22), 0.5e-5)
}

func TestMovement(t *testing.T) {
	fir := species(t, "white fir")
	// Wood Handbook ch. 13 example: 232 mm flat-sawn white fir, 8 to 11 %: 1.7 mm.
	assert.InDelta(t, 1.7, Movement(232, fir.CT, 8, 11), 0.05)
	assert.InDelta(t, 0.0675*inch, WideMovement(9.15*inch, fir.Tangential, 8, 11), 0.0005*inch)
	assert.InDelta(t, 0.166*inch, Movement(11.25*inch, species(t, "red oak").CT, 6, 10), 0.0005*inch)
	// Published trade example: 5 in, C = 0.00129, 6 to 9 %: 0.019 in.
	assert.InDelta(t, 0.019*inch, Movement(5*inch, 0.00129, 6, 9), 0.0005*inch)
	assert.InDelta(t, -0.0644*inch, Movement(5.5*inch, species(t, "cedar").CT, 12, 7), 0.0001*inch)
	assert.InDelta(t, 0.120*inch, Movement(5.5*inch, species(t, "white oak").CT, 6, 12), 0.0005*inch)
	// There and back is nothing; above saturation nothing moves.
	assert.InDelta(t, 0, Movement(100, 0.002, 6, 12)+Movement(100, 0.002, 12, 6), 1e-12)
	assert.Zero(t, Movement(100, 0.002, 35, 60))
	// From green to oven-dry the wide form gives the whole shrinkage.
	assert.InDelta(t, -7, WideMovement(100, 7, 30, 0), 1e-9)
}

// TestEMC checks against Wood Handbook Table 4-2 (reprint at
// woodworkerssource.com), within 0.1 below 90 % humidity.
func TestEMC(t *testing.T) {
	humidity := []float64{20, 30, 40, 50, 60, 65, 70, 80, 90}
	rows := map[float64][]float64{
		30: {4.6, 6.3, 7.9, 9.5, 11.3, 12.4, 13.5, 16.5, 21.0},
		50: {4.6, 6.3, 7.9, 9.5, 11.2, 12.3, 13.4, 16.4, 20.9},
		70: {4.5, 6.2, 7.7, 9.2, 11.0, 12.0, 13.1, 16.0, 20.5},
		90: {4.3, 5.9, 7.4, 8.9, 10.5, 11.5, 12.6, 15.4},
	}
	for fahrenheit, row := range rows {
		for i, want := range row {
			got := EMC((fahrenheit-32)/1.8, humidity[i])
			assert.InDelta(t, want, got, 0.1, "%g °F, %g %%", fahrenheit, humidity[i])
		}
	}
	assert.InDelta(t, 9.27, EMC(20, 50), 0.02)
	assert.Zero(t, EMC(20, 0))
	for h := 1.0; h <= 100; h++ {
		assert.Greater(t, EMC(20, h), EMC(20, h-1))
	}
	assert.Equal(t, EMC(20, 100), EMC(20, 150))
}

func TestSourcesArePrinted(t *testing.T) {
	assert.Equal(t, "PS 20, American Softwood Lumber Standard (published)", ps20.String())
	assert.Equal(t, "ISO 7093-1, large plain washers (from memory)", iso7093.String())
	assert.Equal(t, "common practice", Practice.String())
	assert.Equal(t, "computed", Computed.String())
	assert.Equal(t, "resistant", Resistant.String())
}

// TestSoftwoodSizes checks PS 20 against the metric sizes that are printed beside it.
func TestSoftwoodSizes(t *testing.T) {
	mm := map[string]float64{
		"3/4": 16, "1": 19, "5/4": 25, "6/4": 32, "2": 38, "2-1/2": 51, "3": 64, "4": 89,
	}
	for _, row := range SoftwoodThicknesses() {
		assert.InDelta(t, mm[row.Nominal], row.Dry, 0.51, row.Nominal)
	}
	mm = map[string]float64{
		"2": 38, "3": 64, "4": 89, "5": 114, "6": 140, "7": 165, "8": 184, "9": 210, "10": 235, "11": 260, "12": 286,
	}
	for _, row := range SoftwoodWidths() {
		assert.InDelta(t, mm[row.Nominal], row.Dry, 0.51, row.Nominal)
		assert.Greater(t, row.Green, row.Dry, row.Nominal)
		assert.Greater(t, row.Says, row.Green, row.Nominal)
	}
	for name, want := range map[string][2]float64{
		"1x4": {0.75, 3.5}, "2 x 6": {1.5, 5.5}, "5/4 x 6": {1, 5.5}, "1x8": {0.75, 7.25}, "4x4": {3.5, 3.5},
		"5/4 x 6 decking": {1, 5.5}, "1-1/4x6": {1, 5.5},
	} {
		s, ok := Softwood(name)
		require.True(t, ok, name)
		assert.InDelta(t, want[0]*inch, s.Thick, 1e-9, name)
		assert.InDelta(t, want[1]*inch, s.Width, 1e-9, name)
	}
	for _, name := range []string{"", "x", "1x", "7x4", "1 by 4"} {
		_, ok := Softwood(name)
		assert.False(t, ok, name)
	}
}

func TestHardwoodLosesTheSameEachSide(t *testing.T) {
	for _, row := range HardwoodThicknesses() {
		assert.Less(t, row.BothSide, row.Rough, row.Quarters)
		if row.OneSide > 0 {
			assert.InDelta(t, inch/16, row.OneSide-row.BothSide, 1e-9, row.Quarters)
		}
	}
}

func TestBoardFeet(t *testing.T) {
	assert.InDelta(t, 4.0, BoardFeet(1*inch, 6*inch, 8*foot), 1e-9)
	assert.InDelta(t, 16.0/3, BoardFeet(2*inch, 4*inch, 8*foot), 1e-9)
	assert.InDelta(t, 6.25, BoardFeet(1.25*inch, 6*inch, 10*foot), 1e-9)
	assert.InDelta(t, BoardFeet(inch, 6*inch, foot), BoardFeet(0.5*inch, 6*inch, foot), 1e-12, "thin counts as an inch")
	assert.InDelta(t, 1/0.002359737, BoardFeet(1000, 1000, 1000), 0.001)
}

func TestSoldLengths(t *testing.T) {
	assert.InDelta(t, 6*foot, SoldLengths(false)[0], 1e-9)
	assert.Equal(t, 1800.0, SoldLengths(true)[0])
}

func TestFinish(t *testing.T) {
	// One US gallon is 3.785411784 L and 1 ft²/gal is 0.024543 m²/L.
	assert.InDelta(t, 0.024543, perGallon, 1e-6)
	oil := Oil(Smooth)
	assert.InDelta(t, 5, oil.Least, 0.1)
	assert.InDelta(t, 10, oil.Most, 0.2)
	least, most := oil.Litres(3e6, 2)
	assert.InDelta(t, 6/oil.Most, least, 1e-12)
	assert.InDelta(t, 6/oil.Least, most, 1e-12)
	assert.InDelta(t, oil.Least/2, Oil(Rough).Least, 1e-12)
	assert.Greater(t, Paint().Least, oil.Least)
	assert.False(t, math.IsNaN(least))
}
