package pdf

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"

	"planset/render"
)

// maker is named in the file as what wrote it.
const maker = "planset"

var errLayout = errors.New("the PDF library wrote a file of another layout than expected")

// The end of a file as fpdf writes it. The catalog is its last object.
var ending = regexp.MustCompile(`trailer\n<<\n/Size (\d+)\n/Root (\d+) 0 R\n/Info (\d+) 0 R\n>>\nstartxref\n(\d+)\n%%EOF\n$`)

// tailSearched is how many bytes at the end of a file the ending lies in.
const tailSearched = 512

// A tail is where the parts of a finished file are.
type tail struct {
	size, root, info int    // number of objects with the free one, catalog, document information
	xref             int    // offset of the cross-reference table
	catalog          []byte // what is inside << and >>
}

// update appends to a file what fpdf cannot write, or not well: the file's
// identity, page labels, links, bookmarks, metadata, and the wish to be printed
// at full size. It is an incremental update (ISO 32000-1, 7.5.6): nothing
// before it changes but the version.
func update(file []byte, book *render.Book, links []placedLink) ([]byte, error) {
	t, err := findTail(file)
	if err != nil {
		return nil, err
	}
	pages, err := pageObjects(file, len(book.Pages))
	if err != nil {
		return nil, err
	}
	u := &revision{next: t.size}
	catalog := bytes.Clone(t.catalog)
	catalog = append(catalog, "/ViewerPreferences << /PrintScaling /None /DisplayDocTitle true >>\n"...)
	catalog = fmt.Appendf(catalog, "/PageLabels << /Nums [%s] >>\n", labels(book.Pages))
	if book.Lang != "" {
		catalog = fmt.Appendf(catalog, "/Lang %s\n", literal(book.Lang))
	}
	xmp := metadata(book)
	catalog = fmt.Appendf(catalog, "/Metadata %d 0 R\n", u.next)
	u.add(fmt.Appendf(nil, "<< /Type /Metadata /Subtype /XML /Length %d >>\nstream\n%s\nendstream", len(xmp), xmp))
	if len(book.Marks) > 0 {
		catalog = fmt.Appendf(catalog, "/Outlines %d 0 R\n/PageMode /UseOutlines\n", u.next)
		for _, body := range outline(book.Marks, pages, u.next) {
			u.add(body)
		}
	}
	if err := u.addLinks(file, links, pages, book); err != nil {
		return nil, err
	}
	u.put(t.root, fmt.Appendf(nil, "<<\n%s>>", catalog))
	always, now := identity(book, file)
	return u.appended(file, t, fmt.Sprintf("/ID [<%x> <%x>]", always, now)), nil
}

// A revision collects objects that are new, or that stand for older ones.
type revision struct {
	next    int // first free number
	objects []object
}

type object struct {
	number int
	body   []byte
}

func (u *revision) put(number int, body []byte) {
	u.objects = append(u.objects, object{number, body})
}

func (u *revision) add(body []byte) {
	u.put(u.next, body)
	u.next++
}

// addLinks adds links and writes the pages they are on anew. Links come in the
// order of the pages.
func (u *revision) addLinks(file []byte, links []placedLink, pages []int, book *render.Book) error {
	for len(links) > 0 {
		on, n := links[0].on, 1
		for n < len(links) && links[n].on == on {
			n++
		}
		page, err := annotated(file, pages[on], u.next, n)
		if err != nil {
			return err
		}
		u.put(pages[on], page)
		for _, l := range links[:n] {
			u.add(l.annotation(pages, book.Pages))
		}
		links = links[n:]
	}
	return nil
}

// appended returns the file with the revision at its end. Every object gets a
// section of its own in the cross-reference table.
func (u *revision) appended(file []byte, t tail, id string) []byte {
	out := bytes.NewBuffer(bytes.Clone(file))
	copy(out.Bytes(), header)
	slices.SortFunc(u.objects, func(a, b object) int { return a.number - b.number })
	table := []byte("xref\n")
	for _, o := range u.objects {
		table = fmt.Appendf(table, "%d 1\n%010d 00000 n \n", o.number, out.Len())
		fmt.Fprintf(out, "%d 0 obj\n%s\nendobj\n", o.number, o.body)
	}
	xref := out.Len()
	out.Write(table)
	fmt.Fprintf(out, "trailer\n<<\n/Size %d\n/Root %d 0 R\n/Info %d 0 R\n/Prev %d\n%s\n>>\nstartxref\n%d\n%%%%EOF\n",
		u.next, t.root, t.info, t.xref, id, xref)
	return out.Bytes()
}

// header is how a file begins. fpdf says 1.3 or 1.4; the preferences and the
// identity are of later versions.
const header = "%PDF-1.7"

// findTail looks for the catalog just before the cross-reference table, and
// trusts nothing it does not see there.
func findTail(file []byte) (tail, error) {
	if !bytes.HasPrefix(file, []byte(header[:len(header)-1])) {
		return tail{}, errLayout
	}
	m := ending.FindSubmatch(file[max(0, len(file)-tailSearched):])
	if m == nil {
		return tail{}, errLayout
	}
	var n [4]int
	for i := range n {
		v, err := strconv.Atoi(string(m[i+1]))
		if err != nil {
			return tail{}, errLayout
		}
		n[i] = v
	}
	t := tail{size: n[0], root: n[1], info: n[2], xref: n[3]}
	head := fmt.Appendf(nil, "\n%d 0 obj\n<<\n/Type /Catalog\n", t.root)
	const foot = ">>\nendobj\n"
	if t.xref >= len(file) || !bytes.HasPrefix(file[t.xref:], fmt.Appendf(nil, "xref\n0 %d\n", t.size)) {
		return tail{}, errLayout
	}
	body := file[:t.xref]
	at := bytes.LastIndex(body, head)
	if at < 0 || t.root != t.size-1 || !bytes.HasSuffix(body, []byte(foot)) || bytes.Contains(body[at:], []byte("stream")) {
		return tail{}, errLayout
	}
	t.catalog = body[at+len(head)-len("/Type /Catalog\n") : len(body)-len(foot)]
	return t, nil
}

// labels returns the number tree that gives each page its name.
func labels(pages []render.Page) []byte {
	var out []byte
	for i, page := range pages {
		if page.Name == "" {
			out = fmt.Appendf(out, "%d << /S /D /St %d >> ", i, i+1)
			continue
		}
		out = fmt.Appendf(out, "%d << /P %s >> ", i, literal(page.Name))
	}
	return bytes.TrimRight(out, " ")
}

// identity returns the two parts of the file's identity: one of the source it
// was made from, which stays, and one of the file itself.
func identity(book *render.Book, file []byte) (always, now []byte) {
	ofFile := sha256.Sum256(file)
	ofSource := ofFile
	if book.Seed != "" {
		ofSource = sha256.Sum256([]byte(book.Seed))
	}
	return ofSource[:16], ofFile[:16]
}
