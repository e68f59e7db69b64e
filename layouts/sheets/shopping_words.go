package sheets

import (
	"fmt"
	"math"
	"strings"

	"planset/model/buying"
	"planset/model/expr"
	"planset/model/shop"
)

// spareWords say what is over, boards and pieces.
func spareWords(d *desk, boards int) string {
	var pieces []string
	for _, p := range d.plan.Parts {
		if n := buying.Spare(d.plan, p); n > 0 {
			pieces = append(pieces, digits(n)+" "+strings.ToLower(p.Name)+" ("+p.Code+")")
		}
	}
	words := "The count has no spare board; if the yard is far, buy one more."
	switch {
	case boards == 0 && len(pieces) > 0:
		words = "The count has no spare board"
	case boards == 1:
		words = "The count includes one spare board"
	case boards > 1:
		words = fmt.Sprintf("The count includes %d spare boards", boards)
	}
	if len(pieces) > 0 {
		words += "; the layouts have spare pieces: " + strings.Join(pieces, ", ")
	}
	return sentence(words)
}

// amountWords say how much wood it is in the measures that yards use, what it
// weighs and costs, and how much of it is waste.
func amountWords(d *desk) string {
	length, volume := 0.0, 0.0
	for _, b := range d.in.Cuts.Buying {
		if st := stockOf(d.plan, b.Stock); st != nil {
			long := b.Length * float64(b.Quantity)
			length += long
			volume += long * st.Thick * st.Width
		}
	}
	words := fmt.Sprintf("In all %.0f running feet", math.Ceil(length/304.8-1e-6))
	if d.plan.Unit == expr.MM {
		words = fmt.Sprintf("In all %.3f m³", volume*1e-9)
	}
	if mass := boughtMass(d); mass > 0 {
		words += ", about " + shop.Mass(d.plan.Unit, mass) + " dry"
	}
	words += "; " + percent(d.in.Cuts.Waste) + " is waste."
	if d.in.Cuts.Cost > 0 {
		words += " Reckoned at " + money(d.in.Cuts.Cost)
		if d.plan.Date != "" {
			words += " (prices of " + d.plan.Date + ")"
		}
		words += "."
	}
	return words
}
