package tree

import "fmt"

// header reads [path] or [[path]] and returns the table that it opens.
func (s *scanner) header() *Node {
	start := s.pos
	s.pos++
	double := s.pos < len(s.text) && s.text[s.pos] == '['
	if double {
		s.pos++
	}
	path := s.path()
	if s.failed() {
		return nil
	}
	closing := "]"
	if double {
		closing = "]]"
	}
	if len(s.text)-s.pos < len(closing) || s.text[s.pos:s.pos+len(closing)] != closing {
		s.fail(start, s.pos, "this header is not closed", fmt.Sprintf("end it with %s; names with blanks need quotes", closing))
		return nil
	}
	s.pos += len(closing)
	table := s.root
	for i, p := range path[:len(path)-1] {
		if table = s.enter(table, p); table == nil || s.tooDeep(i+1, p.start) {
			return nil
		}
	}
	last := path[len(path)-1]
	if double {
		return s.append(table, last, start)
	}
	return s.open(table, last, start)
}

// enter goes one part along the path of a header.
func (s *scanner) enter(table *Node, p part) *Node {
	old := table.entry(p.key)
	switch {
	case old == nil:
		made := s.node(Table, s.span(p.start, p.end))
		made.Key, made.KeySpan, made.made = p.key, made.Span, byPath
		table.add(made)
		return made
	case old.Kind == Table && !old.closed:
		return old
	case old.Kind == Array && !old.closed:
		return old.Items[len(old.Items)-1]
	}
	s.notOpen(p, old)
	return nil
}

// open is the last part of [path].
func (s *scanner) open(table *Node, p part, start int) *Node {
	old := table.entry(p.key)
	if old != nil && (old.Kind != Table || old.made != byPath) {
		s.twice(p, old)
		return nil
	}
	if old == nil {
		old = s.node(Table, noSpan)
		old.Key = p.key
		table.add(old)
	}
	// A table met before in a longer path has its header only now.
	old.Span, old.KeySpan, old.made = s.span(start, s.pos), s.span(p.start, p.end), byHeader
	return old
}

// append is the last part of [[path]].
func (s *scanner) append(table *Node, p part, start int) *Node {
	array := table.entry(p.key)
	if array != nil && (array.Kind != Array || array.closed) {
		s.twice(p, array)
		return nil
	}
	if array == nil {
		array = s.node(Array, s.span(start, s.pos))
		array.Key, array.KeySpan = p.key, s.span(p.start, p.end)
		table.add(array)
	}
	item := s.node(Table, s.span(start, s.pos))
	item.Key, item.KeySpan, item.made = p.key, s.span(p.start, p.end), byHeader
	array.Items = append(array.Items, item)
	return item
}
