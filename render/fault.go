package render

import (
	"errors"
	"fmt"
	"math"
	"unicode/utf8"

	"planset/fonts"
	"planset/model/geom"
)

// joined is how far apart, in mm, the end of a segment and the start of the
// next may lie: less than a tenth of the finest pen.
const joined = 0.01

// Fault returns what makes it impossible to paint item, or nil: a sign its
// face lacks, a path in pieces, a place that is no number. Painters ask before
// they paint. The items of a group are not looked at.
func Fault(item Item) error {
	switch item := item.(type) {
	case Stroke:
		return errors.Join(item.Pen.fault(), pathFaults(item.Paths))
	case Fill:
		return pathFaults(item.Paths)
	case Text:
		return item.fault()
	case Link:
		return boxFault("a link", item.Box)
	case Image:
		if item.Box.W() == 0 || item.Box.H() == 0 {
			return errors.New("an image has no box")
		}
		return boxFault("an image", item.Box)
	case Group:
		if item.Clipped() {
			return boxFault(fmt.Sprintf("the clip of group %q", item.Name), item.Clip)
		}
		return nil
	}
	return fmt.Errorf("there is no painting a %T", item)
}

func boxFault(what string, b geom.Box) error {
	if b.Empty() || !finite(b.Min) || !finite(b.Max) {
		return fmt.Errorf("%s has no box", what)
	}
	return nil
}

// fault returns what makes it impossible to draw lines with p.
func (p Pen) fault() error {
	if !(p.Width > 0) || math.IsInf(p.Width, 0) {
		return fmt.Errorf("a pen cannot be %g mm wide", p.Width)
	}
	sum := 0.0
	for _, d := range p.Dash {
		if d < 0 {
			sum = math.NaN()
		}
		sum += d
	}
	if len(p.Dash) > 0 && (!(sum > 0) || math.IsInf(sum, 0)) {
		return fmt.Errorf("a line cannot be dashed by %v", p.Dash)
	}
	return nil
}

// pathFaults returns why some of paths are nowhere or not in one piece.
func pathFaults(paths []Path) error {
	var all []error
	for _, p := range paths {
		if err := p.fault(); err != nil {
			all = append(all, err)
		}
	}
	return errors.Join(all...)
}

func (p Path) fault() error {
	for i, s := range p.Segs {
		if !finite(s.A) || !finite(s.B) || s.Turn != geom.Straight && (!finite(s.C) || !finite(geom.Pt{X: s.R})) {
			return fmt.Errorf("a path runs through no place: %+v", s)
		}
		if i > 0 && s.A.Sub(p.Segs[i-1].B).Len() > joined {
			return fmt.Errorf("a path is broken between %v and %v mm", p.Segs[i-1].B, s.A)
		}
	}
	if n := len(p.Segs); p.Closed && n > 0 && p.Segs[n-1].B.Sub(p.Segs[0].A).Len() > joined {
		return fmt.Errorf("a closed path ends at %v mm, not at its start %v", p.Segs[n-1].B, p.Segs[0].A)
	}
	return nil
}

// fault returns why t cannot be set.
func (t Text) fault() error {
	switch {
	case !t.Face.Valid():
		return fmt.Errorf("text %q has no face of ours, but %s", t.Text, t.Face)
	case !(t.Size > 0) || math.IsInf(t.Size, 0):
		return fmt.Errorf("text %q cannot be %g points high", t.Text, t.Size)
	case !finite(t.At) || !finite(geom.Pt{X: t.Angle}):
		return fmt.Errorf("text %q is nowhere", t.Text)
	case !utf8.ValidString(t.Text):
		return fmt.Errorf("text %q is not UTF-8", t.Text)
	}
	var all []error
	for _, r := range fonts.Missing(t.Face, t.Text) {
		all = append(all, fmt.Errorf("text %q has the sign %q (%U), which the face %s lacks", t.Text, r, r, t.Face))
	}
	return errors.Join(all...)
}

func finite(p geom.Pt) bool {
	return !math.IsNaN(p.X-p.X) && !math.IsNaN(p.Y-p.Y) // Inf-Inf is NaN
}
