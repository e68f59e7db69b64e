package view

import (
	"fmt"
	"math"
	"strings"

	"planset/model/geom"
)

// A Camera looks at the scene from far away, so that parallel lines stay
// parallel. The three directions are unit and square to each other: Right and
// Up are those of the picture, Toward points from the scene to the eye. Either
// hand will do; Draw shows what the numbers say.
type Camera struct{ Right, Up, Toward geom.V3 }

// The straight cameras below look at furniture in the world, where x runs to
// the sitter's right, y to the rear and z up. Those three make a left-handed
// frame, and so do the three directions of these cameras: from in front the
// sitter's right is at the left of the picture.

// Front looks from in front of the sitter; the sitter's right is at the left of
// the picture.
func Front() Camera { return Camera{geom.V3{X: -1}, geom.V3{Z: 1}, geom.V3{Y: -1}} }

// Rear looks from behind; the sitter's right is at the right of the picture.
func Rear() Camera { return Camera{geom.V3{X: 1}, geom.V3{Z: 1}, geom.V3{Y: 1}} }

// Right looks from the sitter's right hand; the front is at the right of the
// picture.
func Right() Camera { return Camera{geom.V3{Y: -1}, geom.V3{Z: 1}, geom.V3{X: 1}} }

// Left looks from the sitter's left hand; the front is at the left of the
// picture.
func Left() Camera { return Camera{geom.V3{Y: 1}, geom.V3{Z: 1}, geom.V3{X: -1}} }

// Top looks down from above with the rear up in the picture, so that it stands
// square over Front.
func Top() Camera { return Camera{geom.V3{X: -1}, geom.V3{Y: 1}, geom.V3{Z: 1}} }

// Bottom looks up from below with the front up in the picture, so that it hangs
// square under Front.
func Bottom() Camera { return Camera{geom.V3{X: -1}, geom.V3{Y: -1}, geom.V3{Z: -1}} }

// Iso looks from in front after a walk of turn radians round towards the
// sitter's right and a climb of lift radians. Uprights stay upright.
func Iso(turn, lift float64) Camera {
	s, c := math.Sincos(turn)
	ls, lc := math.Sincos(lift)
	return Camera{
		Right:  geom.V3{X: -c, Y: -s},
		Up:     geom.V3{X: -s * ls, Y: c * ls, Z: lc},
		Toward: geom.V3{X: s * lc, Y: -c * lc, Z: ls},
	}
}

// Flat returns where p is in the picture.
func (c Camera) Flat(p geom.V3) geom.Pt { return geom.Pt{X: p.Dot(c.Right), Y: p.Dot(c.Up)} }

// Depth returns how near p is: the greater, the nearer to the eye.
func (c Camera) Depth(p geom.V3) float64 { return p.Dot(c.Toward) }

// eye returns p in the camera's own frame: x and y in the picture, z nearness.
func (c Camera) eye(p geom.V3) geom.V3 {
	return geom.V3{X: p.Dot(c.Right), Y: p.Dot(c.Up), Z: p.Dot(c.Toward)}
}

// A gentle view goes a third of a quarter round from the side that is named
// first and looks down enough to show a seat without hiding the legs.
const (
	gentleTurn = 32 * math.Pi / 180
	gentleLift = 22 * math.Pi / 180
)

const understood = "one or two of front, rear, left, right, and at most one of high, low, level; or top, bottom; or left inside, right inside"

// Words returns the camera named by s. One side ("front", "top") is looked at
// straight. Two sides ("front right") make a gentle view from between them,
// nearer to the side named first, from high unless low or level is said; one
// side with high or low is lifted only. "right inside" sees the right-hand side
// from the middle of the furniture. Order and capitals do not matter otherwise.
// The error lists what is understood.
func Words(s string) (Camera, error) {
	w, err := readWords(s)
	if err != nil {
		return Camera{}, err
	}
	switch {
	case w.plan != "" && len(w.sides) == 0 && w.level == "" && !w.inside:
		if w.plan == "top" {
			return Top(), nil
		}
		return Bottom(), nil
	case w.plan != "" || len(w.sides) == 0:
		return Camera{}, badWords(s, "these words do not go together")
	case w.inside:
		return insideCamera(s, w)
	}
	return w.camera(), nil
}

// wording is a camera's name sorted by what its words are about.
type wording struct {
	sides  []string // front, rear, left, right in the order named
	level  string   // high, low, level or nothing
	plan   string   // top, bottom or nothing
	inside bool
}

func badWords(s, why string) error {
	return fmt.Errorf("view %q: %s; understood are %s", s, why, understood)
}

func readWords(s string) (wording, error) {
	var w wording
	for _, word := range strings.Fields(strings.ToLower(s)) {
		switch word {
		case "front", "rear", "left", "right":
			w.sides = append(w.sides, word)
		case "high", "low", "level":
			if w.level != "" {
				return w, badWords(s, "its height is said twice")
			}
			w.level = word
		case "top", "bottom":
			if w.plan != "" {
				return w, badWords(s, "top or bottom is said twice")
			}
			w.plan = word
		case "inside":
			w.inside = true
		default:
			return w, badWords(s, fmt.Sprintf("%q is not understood", word))
		}
	}
	if len(w.sides) > 2 || len(w.sides) == 2 && across(w.sides[0]) == across(w.sides[1]) {
		return w, badWords(s, "its sides do not meet at a corner")
	}
	return w, nil
}

// across reports whether the side is left or right, rather than front or rear.
func across(side string) bool { return side == "left" || side == "right" }

func insideCamera(s string, w wording) (Camera, error) {
	if len(w.sides) != 1 || !across(w.sides[0]) || w.level != "" {
		return Camera{}, badWords(s, "only the left or the right is seen from inside")
	}
	if w.sides[0] == "right" {
		return Left(), nil
	}
	return Right(), nil
}

// sideTurn is how far round from the front each side is.
func sideTurn(side string) float64 {
	switch side {
	case "right":
		return math.Pi / 2
	case "rear":
		return math.Pi
	case "left":
		return -math.Pi / 2
	}
	return 0
}

func (w wording) camera() Camera {
	level := w.level
	if level == "" && len(w.sides) == 2 {
		level = "high"
	}
	lift := 0.0
	switch level {
	case "high":
		lift = gentleLift
	case "low":
		lift = -gentleLift
	}
	turn := sideTurn(w.sides[0])
	if len(w.sides) == 1 && lift == 0 {
		return straight(w.sides[0])
	}
	if len(w.sides) == 2 {
		by := math.Remainder(sideTurn(w.sides[1])-turn, 2*math.Pi)
		turn += math.Copysign(gentleTurn, by)
	}
	return Iso(turn, lift)
}

func straight(side string) Camera {
	switch side {
	case "right":
		return Right()
	case "rear":
		return Rear()
	case "left":
		return Left()
	}
	return Front()
}
