package geom

import "math"

// SawCut returns how to set a saw for an end cut. n is the normal of the cut
// out of the wood in the board's frame: x along, y across, z through the
// thickness. The miter is the angle off square seen on the face, positive when
// the edge at y = 0 is left longer; the bevel is the tilt of the blade from
// square to the face, positive when the face at z = 0 is left longer. Both are
// in radians; they hold for either end of the board.
func SawCut(n V3) (miter, bevel float64) {
	n = n.Unit()
	return math.Atan2(n.Y, math.Abs(n.X)), math.Asin(max(-1, min(1, n.Z)))
}

// RipBevel returns how to set a saw for a cut along an edge. n is the normal of
// the cut out of the wood in the board's frame. The taper is the angle of the
// edge to the grain seen on the face, positive when the board gets narrower
// toward greater x; the bevel is the tilt of the blade, positive when the face at
// z = 0 is left wider. Both are in radians.
func RipBevel(n V3) (taper, bevel float64) {
	n = n.Unit()
	return math.Atan2(n.X, math.Abs(n.Y)), math.Asin(max(-1, min(1, n.Z)))
}
