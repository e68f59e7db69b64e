// Package shoptest has a small chair, solved by hand, for tests of what is
// derived from a plan.
//
// It stands where a loaded plan would, with every kind of thing the lists ask
// for. It is not an example of the plan files: those are in examples.
package shoptest

import (
	"math"

	"planset/model"
	"planset/model/expr"
)

const (
	inch  = 25.4
	slope = 14 * math.Pi / 180
	lean  = 27 * math.Pi / 180
	fan   = 1.05 * math.Pi / 180
)

// Sizes are what differs between the standard chair and the tall one, inches.
type Sizes struct {
	Key, Title            string
	SeatW, SeatH, Arm     float64
	SlatLong, Top, FootAt float64
}

// Standard and Tall are the two sizes.
func Standard() Sizes {
	return Sizes{"standard", "Standard size", 21, 14.25, 21.5, 35.5, 3.25, 2.625}
}

// Tall is the larger size.
func Tall() Sizes { return Sizes{"tall", "Tall size", 23, 15.75, 23, 38, 3.5, 2.9375} }

// A bench is a chair being put together.
type bench struct {
	plan              *model.Plan
	s                 Sizes
	frame, wide, thin *model.Stock
	parts             map[string]*model.Part
}

// Chair returns the chair for a reader of unit. The metric one is the inch one
// measured in millimeters, which is enough for lists.
func Chair(unit expr.Unit, s Sizes) *model.Plan {
	b := &bench{s: s, parts: map[string]*model.Part{}}
	b.plan = &model.Plan{
		Title: "Heron deck chair", Slug: "heron-chair", Unit: unit,
		Purpose:  "A reclining chair with a fanned back and wide arms, for porch and garden.",
		Variant:  model.Variant{Key: s.Key, Title: s.Title},
		Brand:    model.Brand{Maker: "Mudflat Joinery", Contact: "plans@mudflat.example", Licence: "Build as many as you like, for yourself or to sell. Please do not pass the plan on.", Accent: [3]uint8{0x1F, 0x5B, 0x6B}},
		Revision: "B", Date: "2026-10-30", Skill: "a first chair", Hours: "two weekends",
		Changes: []model.Change{
			{Revision: "A", Date: "2026-06-12", Text: "First edition."},
			{Revision: "B", Date: "2026-10-30", Text: "Seat slats shortened so that they slip between the legs.", Recut: true},
		},
		Kerf: inch / 8, EndTrim: inch / 2,
		Finish:   model.Finish{Name: "exterior oil", Coats: 2, Cover: 8, Oily: true, Area: 4.2},
		Critical: []model.Critical{{Name: "recline", Value: expr.Radians(lean, expr.Plumb), Within: math.Pi / 180}},
	}
	b.measures()
	b.stock()
	b.makeParts()
	b.place()
	b.join()
	b.steps()
	return b.plan
}

func (b *bench) measures() {
	length := func(name string, in float64, note string, kind model.MeasureKind) {
		b.plan.Measures = append(b.plan.Measures, model.Measure{Name: name, Value: expr.Length(in * inch), Note: note, Kind: kind})
	}
	length("seat_w", b.s.SeatW, "over the stringers", model.SizeMeasure)
	length("seat_h", b.s.SeatH, "floor to the stringer's top edge at the leg", model.SizeMeasure)
	length("arm_h", b.s.Arm, "floor to the underside of the arm", model.SizeMeasure)
	length("seat_height_front", b.s.SeatH+0.94, "floor to the seat's front edge", model.SolvedMeasure)
	b.plan.Measures = append(b.plan.Measures, model.Measure{Name: "recline", Value: expr.Radians(lean, expr.Plumb), Note: "the back leans, from plumb", Kind: model.SolvedMeasure})
	length("overall_width", b.s.SeatW+13, "", model.SolvedMeasure)
	length("overall_depth", 41, "", model.SolvedMeasure)
	length("overall_height", b.s.SlatLong+3.5, "", model.SolvedMeasure)
}

func (b *bench) stock() {
	add := func(key, name string, t, w float64, nominal [2]float64, choose string, lengths ...float64) *model.Stock {
		s := &model.Stock{Key: key, Name: name, Thick: t * inch, Width: w * inch, Species: "western redcedar", Cleanup: inch / 16,
			Nominal: [2]float64{nominal[0] * inch, nominal[1] * inch}, Select: choose}
		for _, l := range lengths {
			s.Lengths = append(s.Lengths, model.Sold{Length: l * 12 * inch, Price: l * t * w * 0.4})
		}
		b.plan.Stocks = append(b.plan.Stocks, s)
		return s
	}
	b.frame = add("frame", "5/4 × 6 decking", 1, 5.5, [2]float64{1.25, 6}, "straight along the edge, no knot wider than a thumb", 8, 10)
	b.wide = add("wide", "5/4 × 8 clear", 1, 7.25, [2]float64{1.25, 8}, "", 6)
	b.thin = add("thin", "1 × 4", 0.75, 3.5, [2]float64{1, 4}, "", 6, 8)
	b.thin.Spare = 1
}
