package cutting

import (
	"fmt"
	"slices"
)

// A grower makes sections when they are wanted, for tasks that have more than
// can be listed: it knows the strips of each width and, for given values of the
// pieces, puts the best strips beside each strip that leads.
type grower struct {
	strips [][]strip // by width, short to long
	mixes  [][]int   // widths that lie side by side
	within [][][]int // within[a][b][i]: strips of b no longer than strip i of a
	known  map[string]bool
}

// Sections that one call adds, and that a task holds at most.
const (
	grownAtOnce = 24
	mostGrown   = 4000
)

// newGrower prepares the strips of a task.
func newGrower(strips [][]strip, mixes [][]int) *grower {
	g := &grower{strips: strips, mixes: mixes, known: map[string]bool{}}
	for _, a := range strips {
		var row [][]int
		for _, b := range strips {
			at, upto := 0, make([]int, len(a))
			for i, s := range a {
				for at < len(b) && b[at].length <= s.length {
					at++
				}
				upto[i] = at
			}
			row = append(row, upto)
		}
		g.within = append(g.within, row)
	}
	return g
}

// A lead is a strip of a mix with what its section would be worth a length.
type lead struct {
	mix, width, strip int
	density           float64
}

// grow adds to the task the sections that are worth most for the values, and
// returns how many steps that took.
func (g *grower) grow(t *task, values []float64, wants []int) int {
	if len(t.sections) >= mostGrown {
		return 0
	}
	w := g.worth(values, wants)
	var densest []lead
	steps := 0
	for m, mix := range g.mixes {
		for at, a := range mix {
			if at > 0 && mix[at-1] == a {
				continue
			}
			steps += len(g.strips[a]) * len(mix)
			var n int
			densest, n = g.leads(densest, lead{mix: m, width: a}, w, t.kerf)
			steps += 4 * n
		}
	}
	for _, l := range densest {
		s := g.section(t, l, values, slices.Clone(wants))
		if key := fmt.Sprint(s.length, s.counts); len(s.strips) > 1 && !g.known[key] {
			g.known[key] = true
			t.sections = append(t.sections, s)
		}
	}
	return steps
}

// denser puts a lead among the few densest, the densest first; of equal ones
// those that came first.
func denser(out []lead, l lead) []lead {
	if len(out) == grownAtOnce && l.density <= out[len(out)-1].density {
		return out
	}
	at, _ := slices.BinarySearchFunc(out, l, func(have, l lead) int {
		if have.density >= l.density {
			return -1
		}
		return 1
	})
	return slices.Insert(out[:min(len(out), grownAtOnce-1)], min(at, grownAtOnce-1), l)
}

// A worth is the value of every strip by width, and for every number of strips
// of a width (short to long) the greatest value among them.
type worth struct{ strip, best [][]float64 }

// worth values the strips; pieces over what is wanted count nothing.
func (g *grower) worth(values []float64, wants []int) worth {
	var out worth
	for _, strips := range g.strips {
		w, b := make([]float64, len(strips)), make([]float64, len(strips)+1)
		for i, s := range strips {
			for j, k := range s.pieces { // equal pieces lie together
				if n := wants[k]; n > 0 && (j < n || s.pieces[j-n] != k) {
					w[i] += values[k]
				}
			}
			b[i+1] = max(b[i], w[i])
		}
		out.strip, out.best = append(out.strip, w), append(out.best, b)
	}
	return out
}

// leads puts every lead of one width in one mix among the densest, and counts
// them. There are hundreds of thousands, so they are not kept.
func (g *grower) leads(densest []lead, l lead, w worth, kerf int64) ([]lead, int) {
	n := 0
	for i, s := range g.strips[l.width] {
		sum, own := w.strip[l.width][i], false
		if sum == 0 {
			continue
		}
		for _, b := range g.mixes[l.mix] {
			if b == l.width && !own {
				own = true // the lead's own place
				continue
			}
			sum += w.best[b][g.within[l.width][b][i]]
		}
		l.strip, l.density = i, sum/float64(s.length+kerf)
		densest = denser(densest, l)
		n++
	}
	return densest, n
}

// section puts the best strips beside a lead, each from what the ones before
// it leave wanted.
func (g *grower) section(t *task, l lead, values []float64, wants []int) section {
	var s section
	counts := make([]int, len(t.kinds))
	put := func(one strip) {
		s.length = max(s.length, one.length)
		s.strips = append(s.strips, one.pieces)
		for _, k := range one.pieces {
			wants[k]--
			counts[k]++
		}
	}
	put(g.strips[l.width][l.strip])
	own := false
	for _, b := range g.mixes[l.mix] {
		if b == l.width && !own {
			own = true
			continue
		}
		at, top := -1, 0.0
		for i, other := range g.strips[b][:g.within[l.width][b][l.strip]] {
			if v := useful(other, values, wants); v > top {
				at, top = i, v
			}
		}
		if at >= 0 {
			put(g.strips[b][at])
		}
	}
	s.counts, s.width = entries(counts), t.across(s.strips)
	return s
}

// useful returns the value of a strip, or nothing if it has a piece too many.
func useful(s strip, values []float64, wants []int) float64 {
	v := 0.0
	for j, k := range s.pieces {
		if n := wants[k]; n <= 0 || j >= n && s.pieces[j-n] == k {
			return 0
		}
		v += values[k]
	}
	return v
}
