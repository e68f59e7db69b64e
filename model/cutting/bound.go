package cutting

import (
	"math"
	"slices"
)

// A ladder knows which costs boards can add up to, so that a bound may be
// lifted to the next of them: with boards at 12 and 17, nothing costs 25.
type ladder struct {
	weight int64
	least  []int32 // by money: fewest boards that cost so much, -1 if none do
	most   []int32 // and most boards; never as many as the weight
}

// mostRungs bounds the table; a bound over it is only rounded up.
const mostRungs = 1 << 20

// newLadder lists the costs up to a weighted one.
func newLadder(t *task, top int64) *ladder {
	l := &ladder{weight: t.weight}
	n := top/t.weight + 2
	if n > mostRungs {
		return l
	}
	l.least, l.most = make([]int32, n), make([]int32, n)
	for _, s := range t.sizes {
		if s.cost < t.weight { // a free board may come with any sum
			l.most[0] = min(l.most[0]+int32(min(s.limit, int(t.weight))), int32(t.weight-1))
		}
	}
	for money := 1; money < len(l.least); money++ {
		l.least[money] = -1
		for _, s := range t.sizes {
			if price := int(s.cost / t.weight); price > 0 && price <= money {
				l.climb(money, price)
			}
		}
	}
	return l
}

// climb notes that one more board of a price leads to a sum of money.
func (l *ladder) climb(money, price int) {
	below := money - price
	if l.least[below] < 0 {
		return
	}
	if few := l.least[below] + 1; l.least[money] < 0 || few < l.least[money] {
		l.least[money] = few
	}
	l.most[money] = min(max(l.most[money], l.most[below]+1), int32(l.weight-1))
}

// above returns the least weighted cost of whole boards that is not under x.
func (l *ladder) above(x float64) int64 {
	low := max(0, int64(math.Ceil(x)))
	money := l.money(low)
	if int(money) < len(l.least) {
		return max(low, money*l.weight+int64(l.least[money]))
	}
	return low
}

// money returns the least whole units of money that a plan of at least a
// weighted cost can cost. Its boards, fewer than the weight, are in there too.
func (l *ladder) money(weighted int64) int64 {
	money := weighted / l.weight
	for ; int(money) < len(l.least); money++ {
		if l.least[money] >= 0 && money*l.weight+int64(l.most[money]) >= weighted {
			return money
		}
	}
	return max(money, weighted/l.weight)
}

// below returns the greatest weighted cost of whole boards that is under x.
func (l *ladder) below(x int64) int64 {
	for money := x / l.weight; money >= 0 && money < int64(len(l.least)); money-- {
		low, high := money*l.weight+int64(l.least[money]), money*l.weight+int64(l.most[money])
		if l.least[money] >= 0 && low < x {
			return min(high, x-1)
		}
	}
	return x - 1
}

// raised lifts the bound of an answer that is not proved to what the pieces too
// long for the shorter boards cost by themselves: three boards are three, where
// all pieces together seem to ask for two and a half and some short ones.
func (job Job) raised(a answer, stock Stock, picks []int) answer {
	const share, cent = 8, 0.005 // of the work
	low := a.least()
	if !a.s.found || a.cost() <= low+cent {
		return a
	}
	if job.Rules.Work <= 0 {
		job.Rules.Work = defaultWork
	}
	job.Rules.Work /= share
	stock.OnHand = slices.Clone(stock.OnHand)
	for i := range stock.OnHand {
		stock.OnHand[i].Bad = nil
	}
	had := len(picks)
	for _, sold := range stock.Lengths {
		room := whole(sold.Length-2*job.Rules.EndTrim) + grace
		long := slices.DeleteFunc(slices.Clone(picks), func(i int) bool { return whole(job.Pieces[i].Length) <= room })
		if len(long) == 0 || len(long) == had || a.cost() <= low+cent {
			continue
		}
		had = len(long)
		if t, s := solve(job, stock, long); s.found {
			low = max(low, min(a.cost(), float64(s.ladder.money(s.low))*t.unit))
		}
	}
	a.low, a.sure = low, true
	return a
}
