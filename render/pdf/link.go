package pdf

import (
	"bytes"
	"fmt"

	"planset/model/geom"
	"planset/render"
)

// link keeps a link for the end. fpdf would write it inside the page, where
// ISO 32000-1, 7.7.3.3, wants a reference.
func (p *painter) link(l render.Link) {
	if l.Addr == "" && (l.Page < 0 || l.Page >= len(p.book.Pages)) {
		p.failf("a link leads to page %d of %d", l.Page+1, len(p.book.Pages))
		return
	}
	p.links = append(p.links, placedLink{Link: l, on: p.page})
}

// A placedLink is a link and the index of the page it is on.
type placedLink struct {
	render.Link
	on int
}

// annotation returns the object of a link. A page is shown from its top.
func (l placedLink) annotation(pages []int, sizes []render.Page) []byte {
	out := []byte("<< /Type /Annot /Subtype /Link /Border [0 0 0] /Rect [")
	for _, at := range []geom.Pt{l.Box.Min, l.Box.Max} {
		out = append(appendNumber(out, at.X*point, 3), ' ')
		out = append(appendNumber(out, at.Y*point, 3), ' ')
	}
	if l.Addr != "" {
		return fmt.Appendf(out, "] /A << /S /URI /URI %s >> >>", literal(ascii(l.Addr)))
	}
	out = fmt.Appendf(out, "] /Dest [%d 0 R /XYZ null ", pages[l.Page])
	return append(appendNumber(out, sizes[l.Page].Size.H*point, 2), " null] >>"...)
}

// ascii writes an address with nothing but ASCII, as the format wants it: other
// bytes as %XX (RFC 3986, 2.1).
func ascii(addr string) string {
	var out []byte
	for _, b := range []byte(addr) {
		if b <= ' ' || b >= 0x7F {
			out = fmt.Appendf(out, "%%%02X", b)
			continue
		}
		out = append(out, b)
	}
	return string(out)
}

// annotated returns the object of a page as it is in file, with references to
// count annotations, the first of which has the number first.
func annotated(file []byte, page, first, count int) ([]byte, error) {
	head := fmt.Appendf(nil, "\n%d 0 obj\n<</Type /Page\n", page)
	at := bytes.Index(file, head)
	if at < 0 {
		return nil, errLayout
	}
	body, _, found := bytes.Cut(file[at+len(head):], []byte(">>\nendobj\n"))
	if !found || bytes.Contains(body, []byte("/Annots")) || bytes.Contains(body, []byte("stream")) {
		return nil, errLayout
	}
	out := fmt.Appendf(nil, "<< /Type /Page\n%s\n/Annots [", body)
	for i := range count {
		out = fmt.Appendf(out, "%d 0 R ", first+i)
	}
	return append(out, "]\n>>"...), nil
}
