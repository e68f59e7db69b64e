package dims_test

import (
	"fmt"

	"planset/layouts/dims"
	"planset/render"
)

// A leg with one hole: where the hole is, how long the leg is, and what the
// hole is for.
func ExamplePlace() {
	field := dims.Field{
		Box: box(10, 10, 200, 120),
		Ink: []render.Path{render.Rect(box(40, 50, 160, 65)), render.Circle(pt(80, 57), 2)},
	}
	items, used, problems := dims.Place(field,
		dims.Datum{At: pt(40, 50), X: 1, Y: 1},
		dims.Run{Side: dims.Below, Stops: []dims.Stop{
			{At: pt(40, 50), Label: dims.Label{Text: "0"}},
			{At: pt(80, 57), Ring: 2, Label: dims.Label{Text: "9 1⁄2", Key: 1}},
			{At: pt(160, 50), Label: dims.Label{Text: "28"}},
		}},
		dims.Callout{At: pt(80, 57), Ring: 2, Text: []string{"⌀13⁄32 THRU", "(3⁄8 bolt)"}},
	)
	for _, item := range items {
		fmt.Println(item.(render.Group).Name)
	}
	fmt.Println(field.Box.Has(used.Min) && field.Box.Has(used.Max), len(problems))
	// Output:
	// mark
	// dim
	// leader
	// true 0
}
