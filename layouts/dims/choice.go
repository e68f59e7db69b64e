package dims

import (
	"cmp"
	"slices"
)

// A choice is one way to draw a wish by what it costs before anything is
// crossed. Of hundreds only the cheapest few are looked at, so its option is made
// when it is asked for, from numbers that the wish understands.
type choice struct {
	base  float64
	n     int     // in the order in which they were offered
	which int     // place of the text, or ray of the leader
	far   float64 // distance of the line, or length of the leader
	made  *option
}

// An offer is all choices of a wish in one scene.
type offer struct {
	list []choice
	make func(c *choice) option
}

// ready offers options that are made already.
func ready(opts []option) offer {
	list := make([]choice, len(opts))
	for i := range opts {
		opts[i].close()
		list[i] = choice{base: opts[i].base, made: &opts[i]}
	}
	return offer{list: list}
}

// sort puts the cheapest first; of equal ones the first that was offered.
func (o *offer) sort() {
	for i := range o.list {
		o.list[i].n = i
	}
	slices.SortFunc(o.list, func(a, b choice) int {
		if c := cmp.Compare(a.base, b.base); c != 0 {
			return c
		}
		return a.n - b.n
	})
}

// at returns the option of choice i.
func (o *offer) at(i int) *option {
	c := &o.list[i]
	if c.made == nil {
		made := o.make(c)
		made.close()
		c.made = &made
	}
	return c.made
}
