package svg

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/fonts"
	"planset/model/geom"
	"planset/render"
)

func pt(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }

func box(x0, y0, x1, y1 float64) geom.Box { return geom.Box{Min: pt(x0, y0), Max: pt(x1, y1)} }

// An element is a tag with its attributes and the text right in it.
type element struct {
	tag   string
	attrs map[string]string
	text  string
	depth int
}

func (e element) num(t *testing.T, name string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(e.attrs[name], 64)
	require.NoError(t, err, "%s of %s", name, e.tag)
	return v
}

// elements paints items on a page of 100 by 80 mm and reads the XML back.
func elements(t *testing.T, items ...render.Item) []element {
	t.Helper()
	page := &render.Page{Title: "Leg <A> & B", Size: geom.Size{W: 100, H: 80}, Items: items}
	var out, again bytes.Buffer
	require.NoError(t, Write(&out, page))
	require.NoError(t, Write(&again, page))
	require.Equal(t, out.String(), again.String())
	var all []element
	var open []int
	dec := xml.NewDecoder(&out)
	for {
		token, err := dec.Token()
		if err == io.EOF {
			return all
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			e := element{tag: token.Name.Local, attrs: map[string]string{}, depth: len(open)}
			for _, a := range token.Attr {
				e.attrs[a.Name.Local] = a.Value
			}
			open = append(open, len(all))
			all = append(all, e)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 {
				all[open[len(open)-1]].text += string(token)
			}
		}
	}
}

// find returns the elements with a tag.
func find(all []element, tag string) []element {
	var found []element
	for _, e := range all {
		if e.tag == tag {
			found = append(found, e)
		}
	}
	return found
}

func TestFrame(t *testing.T) {
	all := elements(t)
	assert.Equal(t, "svg", all[0].tag)
	assert.Equal(t, "100mm", all[0].attrs["width"])
	assert.Equal(t, "80mm", all[0].attrs["height"])
	assert.Equal(t, "0 0 100 80", all[0].attrs["viewBox"])
	assert.Equal(t, "Leg <A> & B", all[1].text)
}

// readPath turns path data back into segments with y up, by the rules of SVG
// 1.1, appendix F.6.5, for the centre of an arc.
func readPath(t *testing.T, data string) []geom.Seg {
	t.Helper()
	var segs []geom.Seg
	var at, start geom.Pt
	words := strings.Fields(data)
	num := func() float64 {
		v, err := strconv.ParseFloat(words[0], 64)
		require.NoError(t, err)
		words = words[1:]
		return v
	}
	for len(words) > 0 {
		op := words[0][0]
		if words[0] = words[0][1:]; words[0] == "" {
			words = words[1:]
		}
		switch op {
		case 'M':
			at = pt(num(), 80-num())
			start = at
		case 'L':
			to := pt(num(), 80-num())
			segs = append(segs, geom.Seg{A: at, B: to})
			at = to
		case 'A':
			r, _, _, large, sweep := num(), num(), num(), num(), num()
			to := pt(num(), 80-num())
			assert.Zero(t, large)
			half := to.Sub(at).Mul(0.5)
			rise := math.Sqrt(math.Max(0, r*r-half.Dot(half)))
			turn, side := geom.CCW, 1.0 // small and anticlockwise: the centre is on the left
			if sweep == 1 {
				turn, side = geom.CW, -1
			}
			c := at.Add(half).Add(half.Unit().Left().Mul(side * rise))
			segs = append(segs, geom.Seg{A: at, B: to, C: c, R: r, Turn: turn})
			at = to
		case 'Z':
			at = start
		default:
			require.Fail(t, "unknown operator", "%c", op)
		}
	}
	return segs
}

func TestPathComesBack(t *testing.T) {
	arc := func(a, b, c geom.Pt, turn geom.Turn) geom.Seg {
		return geom.Seg{A: a, B: b, C: c, R: a.Sub(c).Len(), Turn: turn}
	}
	path := render.Path{Closed: true, Segs: []geom.Seg{
		{A: pt(10, 10), B: pt(60, 10)},
		arc(pt(60, 10), pt(60, 40), pt(60, 25), geom.CCW),
		arc(pt(60, 40), pt(40, 40), pt(50, 40), geom.CW),
		arc(pt(40, 40), pt(30, 30), pt(40, 30), geom.CCW),
		arc(pt(30, 30), pt(20, 20), pt(20, 30), geom.CCW), // three quarters
		{A: pt(20, 20), B: pt(10, 10)},
	}}
	e := find(elements(t, render.Stroke{Paths: []render.Path{path}, Pen: render.CutLine}), "path")[0]
	got := readPath(t, e.attrs["d"])
	for i, want := range path.Segs {
		for share := 0.05; share < 1; share += 0.1 {
			at := want.At(share)
			nearest := math.Inf(1)
			for _, s := range got {
				nearest = min(nearest, s.Distance(at))
			}
			assert.Less(t, nearest, 1e-3, "segment %d at %g is not drawn", i, share)
		}
	}
	length, drawn := 0.0, 0.0
	for _, s := range path.Segs {
		length += s.Length()
	}
	for _, s := range got {
		drawn += s.Length()
	}
	assert.InDelta(t, length, drawn, 1e-2, "and nothing else is")
	assert.True(t, strings.HasSuffix(e.attrs["d"], "Z"))
	assert.Contains(t, e.attrs["d"], "A", "arcs stay arcs")
}

func TestPens(t *testing.T) {
	line := []render.Path{render.Lines(pt(1, 1), pt(9, 9))}
	pen := render.Pen{Width: 0.25, Tone: render.Tone{R: 255, G: 8}, Dash: []float64{6, 0.8}, Round: true}
	e := find(elements(t, render.Stroke{Paths: line, Pen: pen}), "path")[0]
	assert.Equal(t, "0.25", e.attrs["stroke-width"])
	assert.Equal(t, "#ff0800", e.attrs["stroke"])
	assert.Equal(t, "6 0.8", e.attrs["stroke-dasharray"])
	assert.Equal(t, "round", e.attrs["stroke-linecap"])
	assert.Equal(t, "none", e.attrs["fill"])
	e = find(elements(t, render.Fill{Paths: []render.Path{render.Circle(pt(5, 5), 4)}, Tone: render.White}), "path")[0]
	assert.Equal(t, "evenodd", e.attrs["fill-rule"])
	assert.Equal(t, "#ffffff", e.attrs["fill"])
}

func TestText(t *testing.T) {
	text := render.Text{At: pt(30, 20), Text: "a < b & “c” ", Face: fonts.CondBold, Size: 12, Align: render.Right, Angle: math.Pi / 2}
	e := find(elements(t, text), "text")[0]
	assert.Equal(t, text.Text, e.text)
	assert.InDelta(t, 30, e.num(t, "x"), 1e-9)
	assert.InDelta(t, 60, e.num(t, "y"), 1e-9)
	assert.InDelta(t, 12*25.4/72, e.num(t, "font-size"), 1e-3)
	assert.InDelta(t, fonts.Width(fonts.CondBold, 12, text.Text), e.num(t, "textLength"), 1e-3)
	assert.Equal(t, "end", e.attrs["text-anchor"])
	assert.Equal(t, "600", e.attrs["font-weight"])
	assert.Contains(t, e.attrs["font-family"], "'IBM Plex Sans Condensed'")
	assert.Equal(t, "rotate(-90 30 60)", e.attrs["transform"])
}

func TestGroupsLinksImages(t *testing.T) {
	all := elements(t,
		render.Group{Name: "tab A", Reads: "35 1⁄2", Clip: box(10, 20, 30, 50), Items: []render.Item{
			render.Image{Box: box(0, 0, 40, 60), PNG: []byte("png bytes")},
			render.Group{Clip: box(12, 22, 20, 30), Items: []render.Item{render.Link{Box: box(1, 1, 2, 2), Addr: "https://example.org/?a&b"}}},
		}},
		render.Link{Box: box(1, 1, 2, 2), Page: 4},
	)
	clips, groups := find(all, "clipPath"), find(all, "g")
	require.Len(t, clips, 2)
	assert.NotEqual(t, clips[0].attrs["id"], clips[1].attrs["id"])
	assert.Equal(t, "url(#"+clips[0].attrs["id"]+")", groups[0].attrs["clip-path"])
	assert.Equal(t, "url(#"+clips[1].attrs["id"]+")", groups[1].attrs["clip-path"])
	assert.Greater(t, groups[1].depth, groups[0].depth)
	assert.Equal(t, "tab A", groups[0].attrs["data-name"])
	assert.Equal(t, "35 1⁄2", groups[0].attrs["aria-label"])
	window := find(all, "rect")[1]
	assert.Equal(t, []float64{10, 30, 20, 30}, []float64{window.num(t, "x"), window.num(t, "y"), window.num(t, "width"), window.num(t, "height")})
	image := find(all, "image")[0]
	_, coded, _ := strings.Cut(image.attrs["href"], "base64,")
	data, err := base64.StdEncoding.DecodeString(coded)
	require.NoError(t, err)
	assert.Equal(t, "png bytes", string(data))
	links := find(all, "a")
	require.Len(t, links, 1, "links to other pages have nowhere to go")
	assert.Equal(t, "https://example.org/?a&b", links[0].attrs["href"])
}

type untouched struct{ t *testing.T }

func (u untouched) Write(p []byte) (int, error) {
	u.t.Error("something was written")
	return len(p), nil
}

func TestBrokenPages(t *testing.T) {
	for want, page := range map[string]render.Page{
		"cannot measure 0 x 5 mm":   {Size: geom.Size{H: 5}},
		"cannot measure NaN x 5 mm": {Size: geom.Size{W: math.NaN(), H: 5}},
		"U+2603": {Size: geom.Size{W: 5, H: 5}, Items: []render.Item{
			render.Group{Items: []render.Item{render.Text{Text: "☃", Size: 9}}}}},
		"a pen cannot be 0 mm wide": {Size: geom.Size{W: 5, H: 5}, Items: []render.Item{render.Stroke{}}},
	} {
		assert.ErrorContains(t, Write(untouched{t}, &page), want)
	}
}
