package sheets

import (
	"runtime"
	"sync"

	"planset/model"
	"planset/model/shop"
	"planset/render"
)

// An artwork is a block made in an earlier pass, with what could not be set in
// it well.
type artwork struct {
	block    block
	problems []string
}

// A job is an artwork that is wanted. The key must name all that it depends on,
// so that no pass makes it again; make gets a desk of its own, on which it may
// read everything and note problems, but adds no page.
type job struct {
	key  string
	make func(d *desk) block
}

// A store keeps what every pass over a book shares.
type store struct {
	artworks map[string]artwork
	alerts   map[int][]model.Caution
}

func newStore(plan *model.Plan) *store {
	return &store{artworks: map[string]artwork{}, alerts: shop.AllAlerts(plan)}
}

// blocks returns the blocks of jobs in their order. Those that no earlier pass
// has made are made side by side, on as many processors as there are; what they
// note is noted in the order of the jobs, so that the book is always the same.
func (d *desk) blocks(jobs []job) []block {
	var wanted []job
	asked := map[string]bool{}
	for _, j := range jobs {
		if _, had := d.store.artworks[j.key]; !had && !asked[j.key] {
			asked[j.key] = true
			wanted = append(wanted, j)
		}
	}
	for i, a := range d.atOnce(wanted) {
		d.store.artworks[wanted[i].key] = a
	}
	out := make([]block, len(jobs))
	for i, j := range jobs {
		a := d.store.artworks[j.key]
		d.problems = append(d.problems, a.problems...)
		out[i] = a.block
	}
	return out
}

// atOnce makes jobs side by side.
func (d *desk) atOnce(jobs []job) []artwork {
	out := make([]artwork, len(jobs))
	next := make(chan int)
	var workers sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(jobs)) {
		workers.Go(func() {
			for i := range next {
				aside := *d
				aside.problems = nil
				out[i].block = jobs[i].make(&aside)
				out[i].problems = aside.problems
			}
		})
	}
	for i := range jobs {
		next <- i
	}
	close(next)
	workers.Wait()
	return out
}

// A blank is a place on a page that a picture is put in when all pages of the
// pass are laid out.
type blank struct {
	leaf *leaf
	item int // index into the leaf's items
	job  job
}

// later leaves a place for a picture, so that all pictures of a pass can be
// made side by side. The block's height does not matter.
func (l *leaf) later(key string, make func(d *desk) block) {
	l.d.blanks = append(l.d.blanks, blank{l, len(l.items), job{key, make}})
	l.add(render.Group{Name: "picture"})
}

// fillBlanks makes the pictures that pages were left open for.
func (d *desk) fillBlanks() {
	jobs := make([]job, len(d.blanks))
	for i, b := range d.blanks {
		jobs[i] = b.job
	}
	for i, made := range d.blocks(jobs) {
		b := d.blanks[i]
		b.leaf.items[b.item] = render.Group{Name: "picture", Items: made.items}
	}
	d.blanks = nil
}
