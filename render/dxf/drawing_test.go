package dxf

import (
	"bufio"
	"bytes"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/geom"
)

func pt(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }

// An entity is its kind and the values of its group codes.
type entity struct {
	kind   string
	values map[int]string
}

func (e entity) num(t *testing.T, code int) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(e.values[code], 64)
	require.NoError(t, err, "code %d of %s", code, e.kind)
	return v
}

func (e entity) pt(t *testing.T, code int) geom.Pt { return pt(e.num(t, code), e.num(t, code+10)) }

// pairs reads a file as the reference tells: pairs of lines, code and value.
func pairs(t *testing.T, data []byte) (codes []int, values []string) {
	t.Helper()
	lines := bufio.NewScanner(bytes.NewReader(data))
	for lines.Scan() {
		code, err := strconv.Atoi(strings.TrimSpace(lines.Text()))
		require.NoError(t, err)
		require.True(t, lines.Scan(), "a code without a value")
		codes, values = append(codes, code), append(values, lines.Text())
	}
	return codes, values
}

// entities reads the section of that name.
func entities(t *testing.T, data []byte) []entity {
	t.Helper()
	codes, values := pairs(t, data)
	var all []entity
	inside := false
	for i, code := range codes {
		switch {
		case code == 2 && values[i] == "ENTITIES":
			inside = true
		case code == 0 && values[i] == "ENDSEC":
			inside = false
		case inside && code == 0:
			all = append(all, entity{values[i], map[int]string{}})
		case inside:
			all[len(all)-1].values[code] = values[i]
		}
	}
	return all
}

func written(t *testing.T, d Drawing) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, Write(&out, d))
	return out.Bytes()
}

// back returns the segment an entity describes, by the rule of the reference
// that arcs run anticlockwise from the first angle to the second.
func back(t *testing.T, e entity) geom.Seg {
	t.Helper()
	if e.kind == "LINE" {
		return geom.Seg{A: e.pt(t, 10), B: e.pt(t, 11)}
	}
	require.Equal(t, "ARC", e.kind)
	c, r := e.pt(t, 10), e.num(t, 40)
	at := func(code int) geom.Pt { return c.Add(pt(r, 0).Turn(e.num(t, code) * math.Pi / 180)) }
	return geom.Seg{A: at(50), B: at(51), C: c, R: r, Turn: geom.CCW}
}

func TestOutlineComesBack(t *testing.T) {
	arc := func(a, b, c geom.Pt, turn geom.Turn) geom.Seg {
		return geom.Seg{A: a, B: b, C: c, R: a.Sub(c).Len(), Turn: turn}
	}
	outline := geom.Outline{
		{A: pt(0, 0), B: pt(100, 0)},
		arc(pt(100, 0), pt(100, 50), pt(100, 25), geom.CCW),
		arc(pt(100, 50), pt(50, 50), pt(75, 50), geom.CW),
		arc(pt(50, 50), pt(0, 0), pt(50, 0), geom.CCW),
	}
	got := entities(t, written(t, Drawing{Cut: []geom.Outline{outline}, Marks: outline[:1]}))
	require.Len(t, got, 5)
	for i, want := range outline {
		assert.Equal(t, "cut", got[i].values[8])
		if want.Turn == geom.CW {
			want = want.Reverse()
		}
		s := back(t, got[i])
		assert.Equal(t, want.Turn, s.Turn)
		for _, share := range []float64{0, 0.3, 1} {
			assert.Less(t, want.At(share).Sub(s.At(share)).Len(), 1e-5, "segment %d at %g", i, share)
		}
	}
	assert.Equal(t, "mark", got[4].values[8])
}

func TestHolesAndTexts(t *testing.T) {
	data := written(t, Drawing{
		Holes: []Circle{{C: pt(-10, 20), R: 4}},
		Texts: []Text{{At: pt(5, 6), Text: "A ⌀8 ±0.5° 100% 3⁄4\nx", Height: 5, Angle: math.Pi / 2}},
	})
	got := entities(t, data)
	require.Len(t, got, 2)
	assert.Equal(t, "CIRCLE", got[0].kind)
	assert.Equal(t, "hole", got[0].values[8])
	assert.Equal(t, pt(-10, 20), got[0].pt(t, 10))
	assert.InDelta(t, 4, got[0].num(t, 40), 1e-9)
	assert.Equal(t, "TEXT", got[1].kind)
	assert.Equal(t, "text", got[1].values[8])
	assert.Equal(t, `A %%c8 %%p0.5%%d 100%%% 3\U+20444 x`, got[1].values[1])
	assert.InDelta(t, 90, got[1].num(t, 50), 1e-9)
	assert.InDelta(t, 5, got[1].num(t, 40), 1e-9)
	for _, b := range data {
		assert.Less(t, b, byte(0x80), "the file is ASCII")
	}
}

func TestFrame(t *testing.T) {
	data := written(t, Drawing{Holes: []Circle{{C: pt(10, 20), R: 4}}, Marks: []geom.Seg{{A: pt(-3, 0), B: pt(5, 50)}}})
	codes, values := pairs(t, data)
	after := func(name string) int {
		for i, v := range values {
			if v == name && codes[i] == 9 {
				return i
			}
		}
		require.Fail(t, "no variable", name)
		return 0
	}
	assert.Equal(t, "4", values[after("$INSUNITS")+1], "millimetres")
	assert.Equal(t, "AC1009", values[after("$ACADVER")+1])
	low, high := after("$EXTMIN"), after("$EXTMAX")
	assert.Equal(t, []string{"-3.000000", "0.0"}, values[low+1:low+3])
	assert.Equal(t, []string{"14.000000", "50.000000"}, values[high+1:high+3])
	assert.Equal(t, "EOF", values[len(values)-1])

	var open []string
	for i, code := range codes {
		if code != 0 {
			continue
		}
		switch values[i] {
		case "SECTION", "TABLE":
			open = append(open, values[i])
		case "ENDSEC", "ENDTAB":
			want := map[string]string{"ENDSEC": "SECTION", "ENDTAB": "TABLE"}[values[i]]
			require.NotEmpty(t, open)
			require.Equal(t, want, open[len(open)-1])
			open = open[:len(open)-1]
		}
	}
	assert.Empty(t, open, "every section and table ends")
	for _, name := range []string{"cut", "hole", "mark", "text"} {
		assert.Contains(t, string(data), "LAYER\n  2\n"+name+"\n")
	}
	assert.Equal(t, data, written(t, Drawing{Holes: []Circle{{C: pt(10, 20), R: 4}}, Marks: []geom.Seg{{A: pt(-3, 0), B: pt(5, 50)}}}))
}

type untouched struct{ t *testing.T }

func (u untouched) Write(p []byte) (int, error) {
	u.t.Error("something was written")
	return len(p), nil
}

func TestBrokenDrawings(t *testing.T) {
	nan := math.NaN()
	for want, d := range map[string]Drawing{
		"layer cut runs through no place":  {Cut: []geom.Outline{{{A: pt(nan, 0)}}}},
		"layer mark runs through no place": {Marks: []geom.Seg{{A: pt(1, 0), B: pt(-1, 0), Turn: geom.CW}}},
		"a hole of radius 0 mm":            {Holes: []Circle{{}}},
		"has no place or no height":        {Texts: []Text{{Text: "a"}}},
	} {
		assert.ErrorContains(t, Write(untouched{t}, d), want)
	}
	assert.Empty(t, entities(t, written(t, Drawing{})))
}
