package tables

import (
	"fmt"
	"strings"

	"planset/layouts/lettering"
)

// widths returns the width of every column and what could not be met: a column
// never gets less than its longest word, so that nothing is clipped or broken.
func (t *Table) widths(width float64) ([]float64, []string) {
	n := len(t.Columns)
	free := width - t.gap()*float64(n-1)
	for _, c := range t.Columns {
		free -= c.Apart
	}
	least := make([]float64, n)
	shares := 0.0
	for i, c := range t.Columns {
		least[i] = t.least(i)
		if c.Width > 0 {
			least[i] = max(least[i], c.Width)
			free -= least[i]
			continue
		}
		shares += share(c)
	}
	out := make([]float64, n)
	for i, c := range t.Columns {
		out[i] = least[i]
		if c.Width <= 0 {
			out[i] = free * share(c) / shares
		}
	}
	if lack := level(out, least); lack > 1e-6 {
		return out, []string{fmt.Sprintf("the table with %q needs %.1f mm more than the page has", t.Columns[0].Title, lack)}
	}
	return out, nil
}

func share(c Column) float64 {
	if c.Share <= 0 {
		return 1
	}
	return c.Share
}

// level raises every width to its least, taking what it costs from columns with
// room to spare in proportion to that room. It returns what is lacking.
func level(out, least []float64) float64 {
	lack, spare := 0.0, 0.0
	for i := range out {
		if d := least[i] - out[i]; d > 0 {
			lack += d
		} else {
			spare -= d
		}
	}
	take := 0.0
	if spare > 0 {
		take = min(1, lack/spare)
	}
	for i := range out {
		if d := out[i] - least[i]; d > 0 {
			out[i] -= d * take
		} else {
			out[i] = least[i]
		}
	}
	return max(0, lack-spare)
}

// least returns the width of the widest thing in column i that cannot be broken.
func (t *Table) least(i int) float64 {
	w := 0.0
	for _, word := range strings.Fields(t.Columns[i].Title) {
		w = max(w, lettering.Width(word, t.title()))
	}
	tail := t.tail(i)
	for _, r := range t.Rows {
		if r.Head || i >= len(r.Cells) {
			continue
		}
		c := r.Cells[i]
		st := t.style(c)
		for _, tab := range c.Tabs {
			w = max(w, lettering.TabWidth(tab.Code, tab.Hand, tabHigh))
		}
		if c.Tick {
			w = max(w, tickSide)
		}
		if t.Columns[i].Align == OnFraction {
			w = max(w, lettering.Width(whole(c.Text), st)+tail)
			continue
		}
		for _, word := range unbroken(c.Text) {
			w = max(w, lettering.Width(word, st))
		}
	}
	return w
}

// tail returns the width of the widest fraction, decimal or mark in column i.
func (t *Table) tail(i int) float64 {
	w := 0.0
	if t.Columns[i].Align != OnFraction {
		return 0
	}
	for _, r := range t.Rows {
		if r.Head || i >= len(r.Cells) {
			continue
		}
		c := r.Cells[i]
		st := t.style(c)
		beyond := lettering.Width(c.Text, st) - lettering.Width(whole(c.Text), st)
		if lone(c.Text) {
			beyond += lettering.Width(" ", st)
		}
		w = max(w, beyond)
	}
	return w
}

// whole returns the figures of s up to its last whole figure: of "35 1⁄2″" it
// is "35", of "2.5" it is "2", of "(18″)" it is "(18". A lone fraction has none.
func whole(s string) string {
	end := 0
	for end < len(s) && (s[end] >= '0' && s[end] <= '9' || s[end] == '(') {
		end++
	}
	if strings.HasPrefix(s[end:], "⁄") {
		return strings.Repeat("(", strings.Count(s[:end], "("))
	}
	return s[:end]
}

// lone reports whether s is a fraction without a whole number before it.
func lone(s string) bool {
	i := strings.Index(s, "⁄")
	return i > 0 && !strings.Contains(s[:i], " ")
}

// unbroken returns the words of s that no line may break: those between spaces,
// with a fraction kept to its whole number.
func unbroken(s string) []string {
	var out []string
	for _, word := range strings.Fields(s) {
		if n := len(out); n > 0 && lone(word) && out[n-1] != "" && whole(out[n-1]) == out[n-1] {
			out[n-1] += " " + word
			continue
		}
		out = append(out, word)
	}
	return out
}
