package pdf

import (
	"encoding/xml"
	"fmt"
	"strings"
	"unicode/utf16"

	"planset/render"
)

// textString returns s as the bytes of a PDF text string: plain ASCII as it
// is, anything else as UTF-16 with a byte-order mark (ISO 32000-1, 7.9.2.2).
func textString(s string) string {
	plain := true
	for _, r := range s {
		plain = plain && r >= ' ' && r < 0x7F
	}
	if plain {
		return s
	}
	out := []byte{0xFE, 0xFF}
	for _, u := range utf16.Encode([]rune(s)) {
		out = append(out, byte(u>>8), byte(u))
	}
	return string(out)
}

// literal returns s as a PDF string with its brackets.
func literal(s string) string {
	b := textString(s)
	if b != s {
		return fmt.Sprintf("<%X>", b)
	}
	return "(" + strings.NewReplacer(`\`, `\\`, `(`, `\(`, `)`, `\)`).Replace(s) + ")"
}

// metadata returns the XMP packet of the book. It says the same as the
// document information, for readers that look only here.
func metadata(book *render.Book) string {
	date := book.Date + "T00:00:00Z"
	var b strings.Builder
	b.WriteString("<?xpacket begin=\"\ufeff\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n" +
		"<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n" +
		"<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n" +
		"<rdf:Description rdf:about=\"\"" +
		" xmlns:dc=\"http://purl.org/dc/elements/1.1/\"" +
		" xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\"" +
		" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\">\n")
	b.WriteString("<dc:format>application/pdf</dc:format>\n")
	inAlt(&b, "dc:title", book.Title)
	inAlt(&b, "dc:description", book.Subject)
	if book.Author != "" {
		fmt.Fprintf(&b, "<dc:creator><rdf:Seq><rdf:li>%s</rdf:li></rdf:Seq></dc:creator>\n", escaped(book.Author))
	}
	if book.Lang != "" {
		fmt.Fprintf(&b, "<dc:language><rdf:Bag><rdf:li>%s</rdf:li></rdf:Bag></dc:language>\n", escaped(book.Lang))
	}
	if book.Keywords != "" {
		fmt.Fprintf(&b, "<pdf:Keywords>%s</pdf:Keywords>\n", escaped(book.Keywords))
	}
	fmt.Fprintf(&b, "<pdf:Producer>%s</pdf:Producer>\n<xmp:CreatorTool>%s</xmp:CreatorTool>\n", maker, maker)
	fmt.Fprintf(&b, "<xmp:CreateDate>%s</xmp:CreateDate>\n<xmp:ModifyDate>%s</xmp:ModifyDate>\n", date, date)
	b.WriteString("</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>")
	return b.String()
}

// inAlt writes a property that may come in several languages; ours is the one
// for everybody.
func inAlt(b *strings.Builder, name, value string) {
	if value != "" {
		fmt.Fprintf(b, "<%s><rdf:Alt><rdf:li xml:lang=\"x-default\">%s</rdf:li></rdf:Alt></%s>\n", name, escaped(value), name)
	}
}

func escaped(s string) string {
	var b strings.Builder
	// A strings.Builder never fails.
	_ = xml.EscapeText(&b, []byte(s))
	return b.String()
}
