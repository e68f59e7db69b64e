package pdftest

import (
	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/responses"

	"planset/model/geom"
)

// A Link is a rectangle that leads somewhere.
type Link struct {
	Box  geom.Box // mm
	Page int      // index of the page it leads to, or -1
	Addr string   // the address it leads to, or ""
}

// Links returns the links on page i.
func (d *Doc) Links(i int) []Link {
	d.t.Helper()
	var all []Link
	for pos := 0; ; {
		a := ask(d, d.r.FPDFLink_Enumerate, requests.FPDFLink_Enumerate{Page: d.page(i), StartPos: pos})
		if a.Link == nil || a.NextStartPos == nil {
			return all
		}
		pos = *a.NextStartPos
		all = append(all, d.linkOf(*a.Link))
	}
}

func (d *Doc) linkOf(ref references.FPDF_LINK) Link {
	d.t.Helper()
	link := Link{Page: -1}
	r := ask(d, d.r.FPDFLink_GetAnnotRect, requests.FPDFLink_GetAnnotRect{Link: ref}).Rect
	if r != nil {
		link.Box = boxOf(responses.CharPosition{
			Left: float64(r.Left), Top: float64(r.Top), Right: float64(r.Right), Bottom: float64(r.Bottom),
		})
	}
	dest := ask(d, d.r.FPDFLink_GetDest, requests.FPDFLink_GetDest{Document: d.ref, Link: ref}).Dest
	if dest != nil {
		link.Page, _ = d.place(*dest)
		return link
	}
	action := ask(d, d.r.FPDFLink_GetAction, requests.FPDFLink_GetAction{Link: ref}).Action
	if action != nil {
		uri := ask(d, d.r.FPDFAction_GetURIPath, requests.FPDFAction_GetURIPath{Document: d.ref, Action: *action})
		if uri.URIPath != nil {
			link.Addr = *uri.URIPath
		}
	}
	return link
}

// place returns the page index and the height in mm a destination means.
func (d *Doc) place(dest references.FPDF_DEST) (page int, y float64) {
	d.t.Helper()
	page = ask(d, d.r.FPDFDest_GetDestPageIndex, requests.FPDFDest_GetDestPageIndex{Document: d.ref, Dest: dest}).Index
	if at := ask(d, d.r.FPDFDest_GetLocationInPage, requests.FPDFDest_GetLocationInPage{Dest: dest}); at.Y != nil {
		y = float64(*at.Y) * mm
	}
	return page, y
}

// A Bookmark is one line of the outline.
type Bookmark struct {
	Title string
	Level int // 0 is the top
	Page  int
	Y     float64 // mm
}

// Bookmarks returns the outline from top to bottom.
func (d *Doc) Bookmarks() []Bookmark {
	d.t.Helper()
	a := ask(d, d.r.GetBookmarks, requests.GetBookmarks{Document: d.ref})
	return d.bookmarks(a.Bookmarks, 0)
}

func (d *Doc) bookmarks(from []responses.GetBookmarksBookmark, level int) []Bookmark {
	d.t.Helper()
	var all []Bookmark
	for _, b := range from {
		mark := Bookmark{Title: b.Title, Level: level, Page: -1}
		if b.DestInfo != nil {
			mark.Page, mark.Y = d.place(b.DestInfo.Reference)
		}
		all = append(all, mark)
		all = append(all, d.bookmarks(b.Children, level+1)...)
	}
	return all
}

// Label returns the label of page i.
func (d *Doc) Label(i int) string {
	d.t.Helper()
	return ask(d, d.r.FPDF_GetPageLabel, requests.FPDF_GetPageLabel{Document: d.ref, Page: i}).Label
}

// Info returns an entry of the document information, such as "Title".
func (d *Doc) Info(key string) string {
	d.t.Helper()
	return ask(d, d.r.FPDF_GetMetaText, requests.FPDF_GetMetaText{Document: d.ref, Tag: key}).Value
}

// ScalesWhenPrinted reports whether a print dialog may scale the pages.
func (d *Doc) ScalesWhenPrinted() bool {
	d.t.Helper()
	a := ask(d, d.r.FPDF_VIEWERREF_GetPrintScaling, requests.FPDF_VIEWERREF_GetPrintScaling{Document: d.ref})
	return a.PreferPrintScaling
}

// Identity returns the permanent and the changing part of the file's identity.
func (d *Doc) Identity() (always, now []byte) {
	d.t.Helper()
	id := func(kind enums.FPDF_FILEIDTYPE) []byte {
		return ask(d, d.r.FPDF_GetFileIdentifier, requests.FPDF_GetFileIdentifier{Document: d.ref, FileIdType: kind}).Identifier
	}
	return id(enums.FPDF_FILEIDTYPE_PERMANENT), id(enums.FPDF_FILEIDTYPE_CHANGING)
}
