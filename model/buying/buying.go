// Package buying turns a solved plan into a job for the saw: which blanks come
// out of which stock, under the plan's own kerf and trims.
//
// It knows parts and stocks. How boards are filled is in model/cutting.
package buying

import (
	"planset/model"
	"planset/model/cutting"
	"planset/model/expr"
)

// Boards lays the plan's parts out on boards and works out what to buy.
func Boards(p *model.Plan) *cutting.Plan {
	plan := cutting.Pack(Job(p))
	return &plan
}

// Job is what the plan asks of one visit to the yard.
func Job(p *model.Plan) cutting.Job {
	job := cutting.Job{Rules: rules(p)}
	for _, s := range p.Stocks {
		st := cutting.Stock{Key: s.Key, Thick: s.Thick, Width: s.Width, Spare: s.Spare}
		for _, l := range s.Lengths {
			st.Lengths = append(st.Lengths, cutting.Sold{Length: l.Length, Price: l.Price})
		}
		job.Stocks = append(job.Stocks, st)
	}
	for _, part := range p.Parts {
		if part.Quantity == 0 {
			continue
		}
		job.Pieces = append(job.Pieces, piece(p, part))
	}
	return job
}

func rules(p *model.Plan) cutting.Rules {
	r := cutting.InchRules()
	if p.Unit == expr.MM {
		r = cutting.MetricRules()
	}
	r.Kerf, r.EndTrim = p.Kerf, p.EndTrim
	if c, same := cleanup(p); same {
		r.EdgeCleanup = c
	}
	return r
}

// cleanup is the clean-up of a ripped edge, when all stocks ask for the same.
func cleanup(p *model.Plan) (mm float64, same bool) {
	for i, s := range p.Stocks {
		if i > 0 && s.Cleanup != mm {
			return 0, false
		}
		mm = s.Cleanup
	}
	return mm, true
}

// piece is the blank of a part: as wide as the stock when it is used as bought,
// else with room to clean up both edges where the stocks differ in that.
func piece(p *model.Plan, part *model.Part) cutting.Piece {
	// The clean-up of ripped edges is the layout's to add, edge by edge.
	width := part.Width
	if room := part.RoughWidth - part.Width; room > 2*part.Stock.Cleanup+1e-6 {
		width = part.RoughWidth
	}
	if part.AsBought {
		width = part.Stock.Width
	} else if _, same := cleanup(p); !same {
		width += 2 * part.Stock.Cleanup
	}
	return cutting.Piece{Code: part.Code, Name: part.Name, Stock: part.Stock.Key, Length: part.RoughLength, Width: width,
		Count: part.Quantity, Face: part.Need, Family: part.Family}
}
