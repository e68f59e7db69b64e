package sheets

// An artwork is a block made in an earlier pass, with what could not be set in
// it well.
type artwork struct {
	block    block
	problems []string
}

// artwork returns the block that goes by key, made when it is first asked for:
// no pass places the same dimensions again. The key must name all that the
// block depends on.
func (d *desk) artwork(key string, make func() block) block {
	a, ok := d.artworks[key]
	if !ok {
		before := d.problems
		d.problems = nil
		a.block = make()
		a.problems = d.problems
		d.problems = before
		d.artworks[key] = a
	}
	d.problems = append(d.problems, a.problems...)
	return a.block
}
