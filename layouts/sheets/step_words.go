package sheets

import (
	"slices"
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/shop"
)

// stepsOf lists the steps in which a joint is made.
func (d *desk) stepsOf(j *model.Joint) string {
	var n []int
	for _, s := range d.plan.Steps {
		if slices.Contains(s.Fasten, j) {
			n = append(n, s.Number)
		}
	}
	return shop.Numbers(n)
}

// hardwareName prints a line of hardware: "3⁄8″ × 2 3⁄4″ carriage bolt".
func hardwareName(h *model.Hardware, u expr.Unit) string {
	size := strings.ReplaceAll(h.Size, "/", "⁄")
	if u == expr.Inch && (isBolt(h) || h.Part) {
		size += "″"
	}
	if h.Length > 0 {
		size += " × " + u.Length(h.Length, expr.Fine)
	}
	return size + " " + h.Name
}
