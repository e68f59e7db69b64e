package lettering

import (
	"math"

	"planset/fonts"
	"planset/model/geom"
	"planset/render"
)

// Signs returns the signs that Line draws itself when the face lacks them:
// diameter, tick boxes, arrowheads.
func Signs() []rune { return []rune{'⌀', '☐', '☑', '◁', '▷', '△', '▽'} }

func drawable(r rune) bool {
	switch r {
	case '⌀', '☐', '☑', '◁', '▷', '△', '▽':
		return true
	}
	return false
}

// signWidth returns how far a drawn sign moves along the baseline, in ems.
func signWidth(r rune) float64 {
	if r == '⌀' {
		return 0.80
	}
	return 0.86
}

// drawn returns the strokes of a sign with its lower-left corner at p. The
// strokes are as wide as the stems of the house face.
func drawn(r rune, p placing, st Style) []render.Item {
	em := st.Size * fonts.MM
	at := func(x, y float64) geom.Pt { return p.point(geom.Pt{X: x * em, Y: y * em}) }
	pen := render.Pen{Width: stem(st.Face) * em, Tone: st.Tone, Round: true}
	return []render.Item{render.Stroke{Paths: signPaths(r, at, em), Pen: pen}}
}

// stem returns the width of an upright stem of f, in ems.
func stem(f fonts.Face) float64 {
	if f == fonts.SansBold || f == fonts.CondBold {
		return 0.12
	}
	return 0.075
}

// signPaths gives a sign's paths; at takes ems from the lower-left corner.
func signPaths(r rune, at func(x, y float64) geom.Pt, em float64) []render.Path {
	const (
		top = 0.66 // of the ink's middle line; capitals end at 0.698
		low = 0.04
		mid = (top + low) / 2
		lef = 0.12
		rig = lef + top - low
	)
	switch r {
	case '⌀':
		const half = 0.36
		d := half * math.Sqrt2 / 2 * 1.12
		return []render.Path{
			render.Circle(at(0.40, mid), 0.28*em),
			render.Lines(at(0.40-d, mid-d), at(0.40+d, mid+d)),
		}
	case '☐':
		return []render.Path{render.Loop(at(lef, low), at(rig, low), at(rig, top), at(lef, top))}
	case '☑':
		return []render.Path{
			render.Loop(at(lef, low), at(rig, low), at(rig, top), at(lef, top)),
			render.Lines(at(lef+0.14, mid-0.02), at(lef+0.26, low+0.15), at(rig-0.12, top-0.14)),
		}
	case '◁':
		return []render.Path{render.Loop(at(rig, low), at(rig, top), at(lef, mid))}
	case '▷':
		return []render.Path{render.Loop(at(lef, low), at(rig, mid), at(lef, top))}
	case '△':
		return []render.Path{render.Loop(at(lef, low), at(rig, low), at((lef+rig)/2, top))}
	default: // ▽
		return []render.Path{render.Loop(at(lef, top), at((lef+rig)/2, low), at(rig, top))}
	}
}
