package shoptest

import (
	"planset/model"
	"planset/model/cutting"
	"planset/model/expr"
)

// Cuts lays the parts of a plan out on its stock.
func Cuts(plan *model.Plan) *cutting.Plan {
	job := cutting.Job{Rules: cutting.InchRules()}
	if plan.Unit == expr.MM {
		job.Rules = cutting.MetricRules()
	}
	for _, s := range plan.Stocks {
		st := cutting.Stock{Key: s.Key, Thick: s.Thick, Width: s.Width, Spare: s.Spare}
		for _, l := range s.Lengths {
			st.Lengths = append(st.Lengths, cutting.Sold{Length: l.Length, Price: l.Price})
		}
		job.Stocks = append(job.Stocks, st)
	}
	for _, p := range plan.Parts {
		job.Pieces = append(job.Pieces, cutting.Piece{Code: p.Code, Name: p.Name, Stock: p.Stock.Key,
			Length: p.RoughLength, Width: p.RoughWidth, Count: p.Quantity, Face: p.Need, Family: p.Family})
	}
	cuts := cutting.Pack(job)
	return &cuts
}
