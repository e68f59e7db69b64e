package shoptest

import (
	"planset/model"
	"planset/model/buying"
	"planset/model/cutting"
)

// Cuts lays the parts of a plan out on its stock.
func Cuts(plan *model.Plan) *cutting.Plan { return buying.Boards(plan) }
