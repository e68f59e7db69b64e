package marks

import (
	"planset/model"
	"planset/model/geom"
)

// reach turns radians into millimetres of the same weight as slides.
const reach = 250.0

// slack is the pull, beside that of one tie, by which what no tie holds stays
// where it is.
const slack = 1e-4

// apart is how far the feet of what stands by itself are from each other, mm.
const apart = 250.0

// settle puts the pieces together in the order of the steps.
func (f *frame) settle() {
	body := make([]int, len(f.placed))
	for i := range body {
		body[i] = i
	}
	for _, joints := range f.order() {
		f.join(body, joints)
	}
}

// order is the joints of each step; those that no step makes come last.
func (f *frame) order() [][]int {
	number := map[*model.Joint]int{}
	for k, j := range f.plan.Joints {
		number[j] = k
	}
	var out [][]int
	done := map[int]bool{}
	for _, s := range f.plan.Steps {
		var level []int
		for _, j := range append(s.Fasten[:len(s.Fasten):len(s.Fasten)], s.Glue...) {
			if k, ok := number[j]; ok && !done[k] {
				done[k] = true
				level = append(level, k)
			}
		}
		if len(level) > 0 {
			out = append(out, level)
		}
	}
	for k := range f.plan.Joints {
		if !done[k] {
			out = append(out, []int{k})
		}
	}
	return out
}

// join makes some joints at once: what they tie together becomes one body. The
// body with most pieces stays where it is, the others come to it.
func (f *frame) join(body []int, joints []int) {
	made := map[int]bool{}
	for _, k := range joints {
		made[k] = true
	}
	into := newUnion(len(body))
	degree := make([]int, len(body))
	var rows []int
	for _, t := range f.ties {
		if made[t.joint] && body[t.a] != body[t.b] {
			into.join(body[t.a], body[t.b])
			degree[body[t.a]]++
			degree[body[t.b]]++
		}
	}
	for i, t := range f.ties {
		a, b := body[t.a], body[t.b]
		if a != b && into.of(a) == into.of(b) && (t.joint < 0 || made[t.joint]) {
			rows = append(rows, i)
		}
	}
	size := make([]int, len(body))
	for _, b := range body {
		size[b]++
	}
	for _, group := range into.groups() {
		base := group[0]
		for _, b := range group[1:] {
			if size[b] > size[base] || size[b] == size[base] && degree[b] > degree[base] {
				base = b
			}
		}
		f.come(body, group, base, rows)
		for i := range body {
			if into.of(body[i]) == into.of(base) && body[i] != base {
				body[i] = base
			}
		}
	}
}

// come brings the bodies of a group to its base. Bodies that meet only the base
// are solved one by one; the floor binds those that stand by themselves.
func (f *frame) come(body, group []int, base int, rows []int) {
	if len(group) < 2 {
		return
	}
	floor := len(body)
	standing := f.standing(body, group)
	parts := newUnion(len(body) + 1)
	in := map[int]bool{}
	for _, b := range group {
		in[b] = b != base
	}
	for _, i := range rows {
		a, b := body[f.ties[i].a], body[f.ties[i].b]
		if in[a] && in[b] {
			parts.join(a, b)
		}
	}
	if len(standing) > 1 {
		in[floor] = true
		for _, b := range standing {
			if b != base {
				parts.join(floor, b)
			}
		}
	}
	byPart := map[int]*system{}
	var order []*system
	for _, b := range append(group[:len(group):len(group)], floor) {
		if !in[b] {
			continue
		}
		s := byPart[parts.of(b)]
		if s == nil {
			s = &system{f: f, body: body, at: map[int]int{}}
			byPart[parts.of(b)] = s
			order = append(order, s)
		}
		s.at[b] = len(s.bodies)
		s.bodies = append(s.bodies, b)
	}
	for _, i := range rows {
		a, b := body[f.ties[i].a], body[f.ties[i].b]
		for _, c := range []int{a, b} {
			if in[c] {
				byPart[parts.of(c)].tie(i)
				break
			}
		}
	}
	if in[floor] {
		byPart[parts.of(floor)].stand(floor, standing)
	}
	for _, s := range order {
		s.solve(floor)
	}
}

// standing is the bodies of a group that stand on the floor by themselves.
func (f *frame) standing(body, group []int) []int {
	var out []int
	for _, b := range group {
		box := geom.NoBox3()
		for _, g := range f.feet {
			if body[g.piece] == b {
				box = box.With(g.at)
			}
		}
		if !box.Empty() && box.Size().Len() > apart {
			out = append(out, b)
		}
	}
	return out
}

// union says what is joined with what.
type union []int

func newUnion(n int) union {
	u := make(union, n)
	for i := range u {
		u[i] = i
	}
	return u
}

func (u union) of(i int) int {
	for u[i] != i {
		i = u[i]
	}
	return i
}

func (u union) join(i, j int) {
	i, j = u.of(i), u.of(j)
	u[max(i, j)] = min(i, j)
}

// groups returns the sets of more than one, each in rising order.
func (u union) groups() [][]int {
	lists := make([][]int, len(u))
	for i := range u {
		lists[u.of(i)] = append(lists[u.of(i)], i)
	}
	var out [][]int
	for _, l := range lists {
		if len(l) > 1 {
			out = append(out, l)
		}
	}
	return out
}
