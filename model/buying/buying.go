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
	return r
}

func onHand(b model.OnHand) cutting.OnHand {
	out := cutting.OnHand{Name: b.Name, Length: b.Length, Width: b.Width}
	for _, bad := range b.Bad {
		out.Bad = append(out.Bad, cutting.Stretch(bad))
	}
	return out
}

// Spare is how many pieces of a part are cut beyond those the plan needs. In a
// family they are cut in the size that can become any of its members.
func Spare(p *model.Plan, part *model.Part) int {
	if part.Family == "" {
		return part.Spare
	}
	largest := part
	for _, other := range p.Parts {
		if other.Family == part.Family && (smaller(largest, other) || other.Rank < largest.Rank && !smaller(other, largest)) {
			largest = other
		}
	}
	if part != largest {
		return 0
	}
	return part.Spare
}

// smaller reports whether the blank of a is smaller than that of b.
func smaller(a, b *model.Part) bool {
	return a.RoughLength*a.RoughWidth < b.RoughLength*b.RoughWidth-1e-6
}

// piece is the blank of a part: as wide as the stock when it is used as bought.
func piece(p *model.Plan, part *model.Part) cutting.Piece {
	// The clean-up of ripped edges is the layout's to add, edge by edge.
	width := part.Width
	if room := part.RoughWidth - part.Width; room > 2*part.Stock.Cleanup+1e-6 {
		width = part.RoughWidth
	}
	if part.AsBought {
		width = part.Stock.Width
	}
	out := cutting.Piece{Code: part.Code, Name: part.Name, Stock: part.Stock.Key, Length: part.RoughLength, Width: width,
		Count: part.Quantity, Spare: Spare(p, part), Face: part.Need, Family: part.Family, Match: part.Match}
	if width == part.Width {
		out.Nest = nest(part, p.Kerf)
	}
	return out
}
