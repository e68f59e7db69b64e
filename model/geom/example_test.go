package geom_test

import (
	"fmt"
	"math"

	"planset/model/geom"
)

// A back slat: straight foot, both edges widening to a half round top.
func ExampleFrom() {
	slat, err := geom.From(geom.Pt{X: 0, Y: -33}).
		LineTo(geom.Pt{X: 860, Y: -41}).
		ArcOver(geom.Pt{X: 901, Y: 0}, geom.Pt{X: 860, Y: 41}).
		LineTo(geom.Pt{X: 0, Y: 33}).
		Close()
	fmt.Println(err)
	fmt.Printf("%.0f by %.0f mm, %.1f mm²\n", slat.Box().W(), slat.Box().H(), slat.Area())

	_, err = geom.From(geom.Pt{}).ArcTo(geom.Pt{X: 100}, 40, geom.CCW, false).Close()
	fmt.Println(err)
	// Output:
	// <nil>
	// 901 by 82 mm, 66280.5 mm²
	// move 1: a radius of 40.000 is too small to span 100.000; it needs at least 50.000
}

// The end of a planter's side that leans outward 15 degrees, four sides in all.
func ExampleSawCut() {
	lean := 15 * math.Pi / 180
	along := geom.V3{X: 1}
	across := geom.V3{Y: -math.Sin(lean), Z: math.Cos(lean)}
	side := geom.Pose{Along: along, Across: across, Thick: along.Cross(across)}
	corner := geom.V3{X: 1, Y: 1}.Unit() // the upright plane through the corner
	miter, bevel := geom.SawCut(side.LocalDir(corner))
	fmt.Printf("miter %.2f°, bevel %.2f°\n", math.Abs(miter)*180/math.Pi, math.Abs(bevel)*180/math.Pi)
	// Output: miter 14.51°, bevel 43.08°
}
