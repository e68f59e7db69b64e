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
		st := cutting.Stock{Key: s.Key, Thick: s.Thick, Width: s.Width, Spare: s.Spare, Cleanup: s.Cleanup}
		for _, l := range s.Lengths {
			st.Lengths = append(st.Lengths, cutting.Sold{Length: l.Length, Price: l.Price, Limit: l.Most})
		}
		for _, b := range s.OnHand {
			st.OnHand = append(st.OnHand, onHand(b))
		}
		job.Stocks = append(job.Stocks, st)
	}
	for _, part := range p.Parts {
		if part.Quantity == 0 {
			continue
		}
		job.Pieces = append(job.Pieces, piece(part))
	}
	return job
}

func rules(p *model.Plan) cutting.Rules {
	r := cutting.InchRules()
	if p.Unit == expr.MM {
		r = cutting.MetricRules()
	}
	r.Kerf, r.EndTrim = p.Kerf, p.EndTrim
	return r
}

func onHand(b model.OnHand) cutting.OnHand {
	out := cutting.OnHand{Name: b.Name, Length: b.Length, Width: b.Width}
	for _, bad := range b.Bad {
		out.Bad = append(out.Bad, cutting.Stretch(bad))
	}
	return out
}

// piece is the blank of a part: as wide as the stock when it is used as bought.
func piece(part *model.Part) cutting.Piece {
	// The clean-up of ripped edges is the layout's to add, edge by edge.
	width := part.Width
	if room := part.RoughWidth - part.Width; room > 2*part.Stock.Cleanup+1e-6 {
		width = part.RoughWidth
	}
	if part.AsBought {
		width = part.Stock.Width
	}
	return cutting.Piece{Code: part.Code, Name: part.Name, Stock: part.Stock.Key, Length: part.RoughLength, Width: width,
		Count: part.Quantity, Face: part.Need, Family: part.Family, Match: part.Match}
}
