package wood

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func sum(terms []Term) float64 {
	total := 0.0
	for _, t := range terms {
		total += t.Length
	}
	return total
}

// TestScrewTable checks shank diameters and the lead holes of the chart at
// l-36.com/woodscrewpilot.php, as ranges: charts differ by 1/32 in.
func TestScrewTable(t *testing.T) {
	rows := []struct {
		size     string
		diameter float64    // in
		soft     [2]float64 // sixty-fourths seen
		hard     [2]float64
	}{
		{"#4", 0.112, [2]float64{3, 4}, [2]float64{4, 5}},
		{"#6", 0.138, [2]float64{4, 5}, [2]float64{5, 6}},
		{"#8", 0.164, [2]float64{5, 6}, [2]float64{6, 8}},
		{"#10", 0.190, [2]float64{6, 7}, [2]float64{7, 8}},
		{"#12", 0.216, [2]float64{7, 8}, [2]float64{8, 9}},
		{"#14", 0.242, [2]float64{7, 9}, [2]float64{9, 10}},
	}
	for _, r := range rows {
		s, ok := Screw(r.size)
		require.True(t, ok, r.size)
		assert.InDelta(t, r.diameter*inch, s.Diameter, 1e-9, r.size)
		for _, p := range []struct {
			drill float64
			seen  [2]float64
		}{{s.PilotSoft, r.soft}, {s.PilotHard, r.hard}} {
			n := p.drill / drillInch
			assert.InDelta(t, math.Round(n), n, 1e-9, "%s: a drill that is sold", r.size)
			assert.GreaterOrEqual(t, n, p.seen[0]-1e-9, r.size)
			assert.LessOrEqual(t, n, p.seen[1]+1e-9, r.size)
		}
	}
	eight, _ := Screw("#8")
	assert.InDelta(t, 11.0/64*inch, eight.Clearance, 1e-9)
	assert.InDelta(t, 0.332*inch, eight.Head, 1e-9)
}

func TestScrewsHangTogether(t *testing.T) {
	for _, s := range Screws() {
		assert.Less(t, s.PilotSoft, s.PilotHard+1e-9, s.Size)
		assert.Less(t, s.PilotHard, s.Root+drillMetric/2+1e-9, s.Size)
		assert.Less(t, s.Root, s.Diameter, s.Size)
		assert.GreaterOrEqual(t, s.Clearance, s.Diameter-1e-9, s.Size)
		// Head about twice the shank (furnituremaking.us, wood screws).
		assert.InDelta(t, 2, s.Head/s.Diameter, 0.05, s.Size)
		require.NotEmpty(t, s.Lengths())
		for i, l := range s.Lengths() {
			assert.Greater(t, l, 2*s.Diameter, s.Size)
			if i > 0 {
				assert.Greater(t, l, s.Lengths()[i-1], s.Size)
			}
		}
		s.Lengths()[0] = -1
		assert.Positive(t, s.Lengths()[0], "the table cannot be changed from outside")
		assert.NotEmpty(t, s.Source.Where)
		assert.NotEmpty(t, s.Roots.Where)
	}
	for _, name := range []string{"# 8", "No. 8", "no 8", "8 gauge"} {
		s, ok := Screw(name)
		if name == "8 gauge" {
			assert.False(t, ok, "a number before the word is not a way to write it")
			continue
		}
		require.True(t, ok, name)
		assert.Equal(t, "#8", s.Size)
	}
	cedar, oak := species(t, "cedar"), species(t, "white oak")
	ten, _ := Screw("#10")
	assert.Equal(t, ten.PilotSoft, ten.Pilot(cedar))
	assert.Equal(t, ten.PilotHard, ten.Pilot(oak))
}

func TestScrewLength(t *testing.T) {
	eight, _ := Screw("#8")
	d := eight.Diameter
	cases := []struct {
		name  string
		stack ScrewStack
		want  float64 // in
		ok    bool
	}{
		// 3/4 over a deep edge: 2 in bites 1-1/4, under ten diameters; 2-1/2 would be over.
		{"deep", ScrewStack{Held: 0.75 * inch, Holding: 5.5 * inch}, 2, true},
		// 3/4 into 1 in, 1/8 left: at most 1-5/8.
		{"slat on frame", ScrewStack{Held: 0.75 * inch, Holding: inch}, 1.625, true},
		{"more left", ScrewStack{Held: 0.75 * inch, Holding: inch, Left: inch / 4}, 1.5, true},
		{"sunk", ScrewStack{Held: 0.75 * inch, Holding: inch, Sunk: inch / 4}, 1.25, true},
		{"too thin", ScrewStack{Held: 0.75 * inch, Holding: 0.5 * inch}, 0, false},
		{"thick above", ScrewStack{Held: 1.5 * inch, Holding: 3.5 * inch}, 3, true},
	}
	for _, c := range cases {
		length, terms, ok := ScrewLength("#8", c.stack)
		require.Equal(t, c.ok, ok, c.name)
		assert.InDelta(t, c.want*inch, length, 1e-9, c.name)
		if !ok {
			continue
		}
		assert.InDelta(t, length, sum(terms), 1e-9, "%s: the sum adds up", c.name)
		left := c.stack.Left
		if left == 0 {
			left = TipLeft
		}
		bite := terms[len(terms)-1].Length
		assert.LessOrEqual(t, bite, c.stack.Holding-left+1e-9, "%s: the point stays inside", c.name)
		assert.GreaterOrEqual(t, bite, 4*d, c.name)
	}
	_, _, ok := ScrewLength("#99", ScrewStack{Held: 10, Holding: 100})
	assert.False(t, ok)
}

// TestScrewLengthProperties goes through many stacks: the point never comes
// nearer the far face than it may, and no other sold length that stays within
// ten diameters (or the held thickness) bites more.
func TestScrewLengthProperties(t *testing.T) {
	for _, s := range Screws() {
		for held := 6.0; held < 45; held += 3 {
			for holding := 10.0; holding < 140; holding += 7 {
				stack := ScrewStack{Held: held, Holding: holding}
				length, terms, ok := ScrewLength(s.Size, stack)
				most := max(10*s.Diameter, held)
				for _, l := range s.Lengths() {
					safe := l <= held+holding-TipLeft
					bite := l - held
					if safe && bite <= most && bite >= 4*s.Diameter {
						require.True(t, ok, "%s %v: %g would do", s.Size, stack, l)
						require.GreaterOrEqual(t, length, l, "%s %v", s.Size, stack)
					}
				}
				if ok {
					require.LessOrEqual(t, length, held+holding-TipLeft+1e-9)
					require.GreaterOrEqual(t, terms[2].Length, 4*s.Diameter-1e-9)
				}
			}
		}
	}
}

// TestBoltTables checks rows of ASME B18.5, B18.2.2 and B18.21.1, DIN 603, ISO
// 4032 and ISO 7089 as printed.
func TestBoltTables(t *testing.T) {
	b, ok := Bolt("3/8")
	require.True(t, ok)
	assert.Equal(t, inches(0.844, 0.782), b.Head)
	assert.Equal(t, inches(0.208, 0.188), b.HeadHeight)
	assert.Equal(t, inches(0.388, 0.368), b.Square)
	assert.Equal(t, inches(0.219, 0.188), b.Neck)
	assert.Equal(t, inches(0.337, 0.320), b.Nut.Thick)
	assert.InDelta(t, 1.000*inch, b.Wide.Outside, 1e-9)
	assert.InDelta(t, 0.812*inch, b.Narrow.Outside, 1e-9)
	assert.InDelta(t, 13.0/32*inch, b.Hole, 1e-9)
	m, ok := Bolt("m10")
	require.True(t, ok)
	assert.Equal(t, Limits{24.65, 23.35}, m.Head)
	assert.Equal(t, 8.4, m.Nut.Thick.Max)
	assert.Equal(t, [3]float64{10.5, 20, 2}, [3]float64{m.Narrow.Inside, m.Narrow.Outside, m.Narrow.Thick})
	assert.Equal(t, 26.0, m.Thread(120))
	assert.Equal(t, 32.0, m.Thread(150))
	_, ok = Bolt("M9")
	assert.False(t, ok)
}

func TestBoltsHangTogether(t *testing.T) {
	for _, b := range Bolts() {
		for _, l := range []Limits{b.Head, b.HeadHeight, b.Square, b.Neck, b.Nut.Thick} {
			assert.Greater(t, l.Max, l.Min, b.Size)
			assert.Positive(t, l.Min, b.Size)
		}
		// NDS: hole D + 1/32 to D + 1/16 in.
		assert.GreaterOrEqual(t, b.Hole-b.Diameter, inch/32-1e-9, b.Size)
		assert.LessOrEqual(t, b.Hole-b.Diameter, inch/16+1e-9, b.Size)
		assert.Greater(t, b.Narrow.Inside, b.Diameter, b.Size)
		assert.Greater(t, b.Wide.Outside, b.Narrow.Outside, b.Size)
		assert.GreaterOrEqual(t, b.Wide.Thick, b.Narrow.Thick, b.Size)
		// The corners of a hexagon are 2/sqrt 3 of its flats.
		if b.Nut.Corners.Max > 0 {
			assert.InEpsilon(t, b.Nut.Flats.Max*2/math.Sqrt(3), b.Nut.Corners.Max, 0.005, b.Size)
		}
		assert.LessOrEqual(t, b.Nut.Corners.Min, b.Nut.Flats.Max*2/math.Sqrt(3), b.Size)
		for i, l := range b.Lengths() {
			if i > 0 {
				assert.Greater(t, l, b.Lengths()[i-1], b.Size)
			}
			assert.LessOrEqual(t, b.Thread(l), l, b.Size)
		}
		for _, s := range []Source{b.Source, b.Nut.Source, b.Narrow.Source, b.Wide.Source} {
			assert.NotEmpty(t, s.Where, b.Size)
		}
		if twin, ok := Twin(b.Size); ok {
			other, ok := Bolt(twin)
			require.True(t, ok, twin)
			assert.NotEqual(t, b.Metric, other.Metric)
			assert.InEpsilon(t, b.Diameter, other.Diameter, 0.15, b.Size)
		}
	}
}

// TestBoltLength is the published sum: 1.5 + 0.083 + 0.337 + 2/16 = 2.045 in,
// so 2-1/4 in for two 3/4 in boards and a 3/8 in bolt.
func TestBoltLength(t *testing.T) {
	length, terms, ok := BoltLength("3/8", 1.5*inch, WideWasher)
	require.True(t, ok)
	assert.InDelta(t, 2.25*inch, length, 1e-9)
	assert.InDelta(t, 2.045*inch, sum(terms), 1e-9)
	require.Len(t, terms, 4)
	assert.Equal(t, "2 threads", terms[3].What)
	assert.InDelta(t, 2.0/16*inch, terms[3].Length, 1e-9)
	// M10 on 38 mm: 38 + 2.5 + 8.4 + 3 = 51.9.
	length, terms, ok = BoltLength("M10", 38, WideWasher)
	require.True(t, ok)
	assert.Equal(t, 55.0, length)
	assert.InDelta(t, 51.9, sum(terms), 1e-9)
	_, terms, _ = BoltLength("M10", 38, NoWasher)
	assert.Len(t, terms, 3)
	_, _, ok = BoltLength("3/8", 9*inch, WideWasher)
	assert.False(t, ok, "no such bolt is sold")
}

// TestBoltLengthIsTheNextSold: never short, and never a whole step too long.
func TestBoltLengthIsTheNextSold(t *testing.T) {
	for _, b := range Bolts() {
		for grip := 10.0; grip < 150; grip += 1.7 {
			length, terms, ok := BoltLength(b.Size, grip, NarrowWasher)
			require.True(t, ok)
			need := sum(terms)
			require.GreaterOrEqual(t, length, need-1e-6)
			for _, l := range b.Lengths() {
				require.False(t, l >= need && l < length, "%s %g: %g would do", b.Size, grip, l)
			}
			// The nut must find thread all the way down to the washer.
			require.LessOrEqual(t, length-b.Thread(length), grip+b.Narrow.Thick+25, b.Size)
		}
	}
}

func TestPocketScrew(t *testing.T) {
	for thick, want := range map[float64]float64{0.5: 1, 0.75: 1.25, 1: 1.5, 1.5: 2.5} {
		p, ok := PocketScrew(thick*inch, false)
		require.True(t, ok)
		assert.InDelta(t, want*inch, p.Length, 1e-9)
		assert.Equal(t, Practice, p.Source.Mark)
	}
	m, ok := PocketScrew(19, true)
	require.True(t, ok)
	assert.Equal(t, 32.0, m.Length)
	for _, thick := range []float64{9, 45} {
		_, ok = PocketScrew(thick, false)
		assert.False(t, ok)
	}
	// The point must not come through: at 15° a screw reaches length·cos 15°
	// beyond the pocket's seat, and it enters half the thickness deep.
	for _, p := range append(Pockets(true), Pockets(false)...) {
		assert.Less(t, p.Length*math.Sin(PocketAngle*math.Pi/180), p.Thick, "%g", p.Thick)
	}
}
