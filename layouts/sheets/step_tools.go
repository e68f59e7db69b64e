package sheets

import (
	"math"

	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/geom"
)

// toolID is the first number of tools among the pieces of a picture; what one
// measure shows has the numbers of its place in the step.
const toolID = 2 * hardwareID

// A stick is a straight bar of a tool in the world: it begins at from, is long
// one way, and wide and thick in the two others, mm.
type stick struct {
	from             geom.V3
	way, side        geom.V3 // unit, square to each other
	long, wide, deep float64
}

// solid is the bar. It lies in the middle of its thickness.
func (b stick) solid() *geom.Solid {
	third := b.way.Cross(b.side)
	board := geom.Board{Outline: geom.Rect(b.long, b.wide), Thick: b.deep}
	solid, err := board.Solid(1)
	if err != nil {
		return nil // a bar of no size
	}
	return solid.Transform(geom.Pose{Origin: b.from.Sub(third.Mul(b.deep / 2)), Along: b.way, Across: b.side, Thick: third})
}

// tools puts the tools of what a step measures into the scene: spacers, levels,
// gauges, squares and straightedges, as real shapes in their places.
func (s *scene) tools(shows []model.Show) {
	for i, sh := range shows {
		for k, b := range sticks(sh) {
			if solid := b.solid(); solid != nil {
				s.pieces = append(s.pieces, woodwork.Piece{ID: toolID + 4*i + k, Solid: solid, Look: woodwork.Metal})
			}
		}
	}
}

// isUpright is the least angle in radians that a gauge is drawn at; below it a
// level lies there.
const isUpright = 0.2 * math.Pi / 180

// sticks are the bars of the tool for a measure; none for a tape.
func sticks(sh model.Show) []stick {
	switch sh.Kind {
	case model.ShowGap:
		out := sh.B.Sub(sh.A)
		const long, deep = 26.0, 54.0 // stands out of boards of common thickness
		return []stick{{sh.A.Sub(sh.Along.Mul(long / 2)), sh.Along, out.Unit(), long, out.Len(), deep}}
	case model.ShowLevel, model.ShowPlumb:
		return gauge(sh)
	case model.ShowSquare:
		const blade, tongue, wide, thick = 260.0, 170.0, 38.0, 8.0
		return []stick{
			{sh.A, sh.Along, sh.Into, blade, wide, thick},
			{sh.A.Add(sh.Into.Mul(wide)), sh.Into, sh.Along, tongue, wide, thick},
		}
	case model.ShowFlat:
		const more, high, thick = 110.0, 60.0, 9.0
		return []stick{{sh.A.Sub(sh.Along.Mul(more)), sh.Along, sh.Out, sh.B.Sub(sh.A).Len() + 2*more, high, thick}}
	}
	return nil
}

// gauge is a bevel gauge with its blade along the side and its stock plumb or
// level, or a spirit level on a side that is plumb or level.
func gauge(sh model.Show) []stick {
	if math.Abs(sh.Value.V) < isUpright {
		const long, high, thick = 300.0, 52.0, 24.0
		return []stick{{sh.A.Sub(sh.Along.Mul(long / 2)), sh.Along, sh.Out, long, high, thick}}
	}
	// The stock stands in the air, and the blade makes the smaller angle with it.
	into := sh.Into
	if into.Dot(sh.Out) < 0 {
		into = into.Neg()
	}
	along := sh.Along
	if along.Dot(into) < 0 {
		along = along.Neg()
	}
	side := into.Sub(along.Mul(into.Dot(along))).Unit() // out of the side
	off := along.Sub(into.Mul(along.Dot(into))).Unit()  // away from the stock, toward the side
	const blade, stock, thin, wide = 300.0, 250.0, 22.0, 40.0
	return []stick{
		{sh.A, along, side, blade, thin, 6},
		{sh.A, into, off.Neg(), stock, wide, 18},
	}
}
