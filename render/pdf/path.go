package pdf

import (
	"math"
	"strconv"

	"planset/model/geom"
	"planset/render"
)

// step is the most that one Bézier curve turns. At 30 degrees it stays within
// 0.0002 mm of a circle of 600 mm radius.
const step = math.Pi / 6

func (p *painter) stroke(s render.Stroke) {
	p.op("q")
	p.num(s.Pen.Width * point)
	p.op("w")
	if s.Pen.Round {
		p.op("1 J 1 j")
	}
	if len(s.Pen.Dash) > 0 {
		p.buf = append(p.buf, '[')
		for _, d := range s.Pen.Dash {
			p.num(d * point)
		}
		p.op("] 0 d")
	}
	p.tone(s.Pen.Tone, "G", "RG")
	p.paths(s.Paths)
	p.op("S Q")
	p.flush()
}

func (p *painter) fill(f render.Fill) {
	p.op("q")
	p.tone(f.Tone, "g", "rg")
	p.paths(f.Paths)
	p.op("f* Q")
	p.flush()
}

// paths appends the operators that build paths.
func (p *painter) paths(paths []render.Path) {
	for _, path := range paths {
		if len(path.Segs) == 0 {
			continue
		}
		p.pt(path.Segs[0].A)
		p.op("m")
		for i, s := range path.Segs {
			if path.Closed && i == len(path.Segs)-1 && s.Turn == geom.Straight {
				break // h draws it
			}
			p.seg(s)
		}
		if path.Closed {
			p.op("h")
		}
	}
}

// seg appends one segment; the pen is at its start.
func (p *painter) seg(s geom.Seg) {
	if s.Turn == geom.Straight {
		p.pt(s.B)
		p.op("l")
		return
	}
	turn := math.Abs(s.Sweep())
	n := max(1, int(math.Ceil(turn/step-1e-9)))
	each := 1 / float64(n)
	handle := 4.0 / 3 * math.Tan(turn*each/4) * s.R
	for i := range n {
		from, to := float64(i)*each, float64(i+1)*each
		if i == n-1 {
			to = 1 // exactly, so that the curve ends at s.B
		}
		end := s.At(to)
		p.pt(s.At(from).Add(s.Tangent(from).Mul(handle)))
		p.pt(end.Sub(s.Tangent(to).Mul(handle)))
		p.pt(end)
		p.op("c")
	}
}

// pt appends a point of the page in points of the file. Both have y up.
func (p *painter) pt(at geom.Pt) { p.num(at.X*point, at.Y*point) }

// num appends numbers to three decimals, 0.0004 mm.
func (p *painter) num(values ...float64) {
	for _, v := range values {
		p.buf = appendNumber(p.buf, v, 3)
		p.buf = append(p.buf, ' ')
	}
}

// op appends an operator.
func (p *painter) op(s string) {
	p.buf = append(p.buf, s...)
	p.buf = append(p.buf, ' ')
}

// tone appends a colour with the operator for grays or the one for the rest.
func (p *painter) tone(t render.Tone, gray, rgb string) {
	if t.R == t.G && t.G == t.B {
		p.num(float64(t.R) / 255)
		p.op(gray)
		return
	}
	p.num(float64(t.R)/255, float64(t.G)/255, float64(t.B)/255)
	p.op(rgb)
}

// appendNumber appends v without needless zeros.
func appendNumber(buf []byte, v float64, decimals int) []byte {
	start := len(buf)
	buf = strconv.AppendFloat(buf, v, 'f', decimals, 64)
	for buf[len(buf)-1] == '0' {
		buf = buf[:len(buf)-1]
	}
	if buf[len(buf)-1] == '.' {
		buf = buf[:len(buf)-1]
	}
	if string(buf[start:]) == "-0" {
		buf = append(buf[:start], '0')
	}
	return buf
}
