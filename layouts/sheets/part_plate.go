package sheets

import (
	"math"
	"slices"
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// A plate is one part seen on its face, to scale, with a plain stretch left out
// perhaps. Datum end left; the reference edge is below unless flip, which shows
// the other face.
type plate struct {
	p       *model.Part
	k       float64    // page mm a mm of wood
	gone    [2]float64 // along: the stretch left out; equal when none is
	flip    bool
	wide    float64 // the most it may take of the page across, mm
	at      geom.Pt // page place of the datum end at the lower side of the view
	letters []column
}

// A column is a size that differs within a family, or several of one kind that
// differ alike. A key is its kind and the hole it is of: "x lower".
type column struct {
	keys   []string
	letter string
	values []string
}

// kind is the first word of the keys.
func (c column) kind() string {
	kind, _, _ := strings.Cut(c.keys[0], " ")
	return kind
}

// Room for a face view on the page, mm.
const (
	plateW   = 138.0
	plateH   = 62.0
	breakGap = 3.0
	breakEnd = 7.0 // plain wood left on either side of a break
)

// facing chooses which face a part shows: the one with more to see on it, in
// doubt the first.
func facing(p *model.Part) *plate {
	score := [2]int{1, 0}
	for _, h := range p.Holes {
		if h.Into == "face" && !h.Matched && h.Sink {
			score[h.From&1] += 2
		}
	}
	for _, q := range p.Pockets {
		score[q.Face&1] += 2
	}
	for f := range 2 {
		if p.Face != "" && p.Names.Faces[f] == p.Face {
			score[f] += 4
		}
	}
	if f := shownFace(p); f >= 0 {
		return &plate{p: p, flip: f == 1, wide: plateW}
	}
	return &plate{p: p, flip: score[1] > score[0], wide: plateW}
}

// shown is the number of the face toward the reader.
func (v *plate) shown() int {
	if v.flip {
		return 1
	}
	return 0
}

// standardScales of part drawings, one to so many.
func standardScales(u expr.Unit) []float64 {
	if u == expr.MM {
		return []float64{1, 2, 5, 10}
	}
	return []float64{1, 2, 4, 8, 12}
}

// size chooses the largest standard scale at which the part fits the page. A
// long part that would come out small is broken where it is plain.
func (v *plate) size(u expr.Unit) {
	if v.wanted() {
		return
	}
	scales := standardScales(u)
	for _, s := range scales {
		v.k = 1 / s
		if v.p.Width*v.k > plateH {
			continue
		}
		if v.p.Length*v.k <= v.wide {
			return
		}
		if s >= 4 && v.breaks() {
			return
		}
	}
}

// breaks leaves out the longest plain stretch if that makes the part fit.
func (v *plate) breaks() bool {
	lo, hi := v.plain()
	lo, hi = lo+breakEnd/v.k, hi-breakEnd/v.k
	over := v.p.Length - (v.wide-breakGap)/v.k
	if over > hi-lo || hi <= lo {
		return false
	}
	mid := (lo + hi) / 2
	v.gone = [2]float64{mid - over/2, mid + over/2}
	if wide := hi - lo; over < wide { // leave out a little more than must be, for air
		more := min(wide-over, 0.12*v.p.Length) / 2
		v.gone = [2]float64{v.gone[0] - more, v.gone[1] + more}
	}
	return true
}

// plain returns the longest stretch along the part where nothing happens.
func (v *plate) plain() (lo, hi float64) {
	stops := []float64{0, v.p.Length}
	for _, s := range v.p.Board.Outline {
		stops = append(stops, s.A.X)
	}
	stops = append(stops, bent(v.p.Board.Outline)...)
	for _, h := range v.p.Holes {
		stops = append(stops, h.Along)
	}
	for _, q := range v.p.Pockets {
		stops = append(stops, q.Along)
	}
	for _, n := range v.p.Notches {
		stops = append(stops, n.Along, n.Along+n.Long)
	}
	for _, g := range v.p.Grooves {
		if !g.AlongRun {
			stops = append(stops, g.Box.Min.X, g.Box.Max.X)
		}
	}
	stops = sorted(stops)
	for i := 1; i < len(stops); i++ {
		if stops[i]-stops[i-1] > hi-lo {
			lo, hi = stops[i-1], stops[i]
		}
	}
	return lo, hi
}

// x returns where along the part lies on the page, from the view's left.
func (v *plate) x(along float64) float64 {
	if v.gone[1] <= v.gone[0] || along <= v.gone[0] {
		return along * v.k
	}
	if along < v.gone[1] {
		return v.gone[0]*v.k + breakGap*(along-v.gone[0])/(v.gone[1]-v.gone[0])
	}
	return (along-v.gone[1]+v.gone[0])*v.k + breakGap
}

func (v *plate) broken() bool { return v.gone[1] > v.gone[0] }

// pt returns where a point of the part's face lies on the page.
func (v *plate) pt(along, across float64) geom.Pt {
	y := across
	if v.flip {
		y = v.p.Width - across
	}
	return v.at.Add(pt(v.x(along), y*v.k))
}

// width returns how wide the view is on the page.
func (v *plate) width() float64 { return v.x(v.p.Length) }

// lines draws the part's edges without its holes: what is seen, what is hidden.
func (v *plate) lines() (seen, hidden []render.Path) {
	cam := view.Camera{Right: geom.V3{X: 1}, Up: geom.V3{Y: 1}, Toward: geom.V3{Z: -1}}
	if v.flip {
		cam.Toward = geom.V3{Z: 1}
	}
	seen, hidden, ok := v.drawn(cam, func(q geom.Pt) geom.Pt { return v.pt(q.X, q.Y) })
	if !ok {
		return []render.Path{v.outline()}, nil
	}
	return seen, hidden
}

// drawn draws the part without its holes as a camera sees it that has along at
// its right; put puts what it sees on the page. A shape that makes no solid is
// not drawn.
func (v *plate) drawn(cam view.Camera, put func(geom.Pt) geom.Pt) (seen, hidden []render.Path, ok bool) {
	b := v.p.Board
	b.Bores = nil
	solid, err := b.Solid(0.05)
	if err != nil {
		return nil, nil, false
	}
	d := view.Draw([]view.Body{{Solid: solid, Pose: geom.Home()}}, cam)
	for _, e := range d.Edges {
		for _, piece := range v.split(e.A, e.B) {
			path := render.Lines(put(piece[0]), put(piece[1]))
			if e.Visible {
				seen = append(seen, path)
			} else {
				hidden = append(hidden, path)
			}
		}
	}
	return seen, hidden, true
}

// split takes the stretch left out away from a line of the part.
func (v *plate) split(a, b geom.Pt) [][2]geom.Pt {
	if !v.broken() {
		return [][2]geom.Pt{{a, b}}
	}
	var out [][2]geom.Pt
	for _, side := range [...][2]float64{{math.Inf(-1), v.gone[0]}, {v.gone[1], math.Inf(1)}} {
		lo, hi := 0.0, 1.0
		dx := b.X - a.X
		if dx == 0 {
			if a.X >= side[0] && a.X <= side[1] {
				out = append(out, [2]geom.Pt{a, b})
			}
			continue
		}
		t0, t1 := (side[0]-a.X)/dx, (side[1]-a.X)/dx
		lo, hi = max(lo, min(t0, t1)), min(hi, max(t0, t1))
		if hi > lo {
			at := func(t float64) geom.Pt { return a.Add(b.Sub(a).Mul(t)) }
			out = append(out, [2]geom.Pt{at(lo), at(hi)})
		}
	}
	return out
}

// outline is the plain outline, for a shape that makes no solid.
func (v *plate) outline() render.Path {
	var pts []geom.Pt
	for _, q := range v.p.Board.Outline.Flatten(0.05) {
		pts = append(pts, v.pt(q.X, q.Y))
	}
	return render.Loop(pts...)
}

// blank draws where the board was before it was shaped, as a ghost, when the
// datum corner itself is cut away or the edges taper.
func (v *plate) blank() []render.Path {
	o := v.p.Board.Outline
	corner := geom.Pt{}
	if o.Distance(corner) < 0.05 && len(v.p.Tapers) == 0 {
		return nil
	}
	var paths []render.Path
	add := func(a, b geom.Pt) {
		for _, s := range v.split(a, b) {
			paths = append(paths, render.Lines(v.pt(s[0].X, s[0].Y), v.pt(s[1].X, s[1].Y)))
		}
	}
	c := [4]geom.Pt{{}, pt(v.p.Length, 0), pt(v.p.Length, v.p.Width), pt(0, v.p.Width)}
	for i := range c {
		a, b := c[i], c[(i+1)%4]
		if o.Distance(a.Add(b).Mul(0.5)) > 0.05 || o.Distance(a) > 0.05 || o.Distance(b) > 0.05 {
			add(a, b)
		}
	}
	return paths
}

func sorted(x []float64) []float64 {
	out := slices.Clone(x)
	slices.Sort(out)
	return out
}
