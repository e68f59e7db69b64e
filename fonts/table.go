package fonts

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// A table is what we need to know of one TrueType file. The layout of the file
// is that of the OpenType specification 1.9, chapters head, hhea, hmtx, maxp,
// loca, glyf, cmap and OS/2. Lengths are in units of the font.
type table struct {
	unitsPerEm int
	capHeight  int
	xHeight    int
	ascent     int
	descent    int // below zero
	glyphs     map[rune]uint16
	common     [256]uint16 // glyphs of the first runes, which most texts are made of
	advances   []uint16    // by glyph; the last one holds for all glyphs after it
	boxes      []box       // by glyph; the zero box for one without ink
}

// A box is the ink of a glyph.
type box struct{ left, low, right, top int16 }

// glyph returns the number of the drawing of r, 0 for one that is lacking.
func (t *table) glyph(r rune) uint16 {
	if r >= 0 && int(r) < len(t.common) {
		return t.common[r]
	}
	return t.glyphs[r]
}

// advance returns the width of r.
func (t *table) advance(r rune) int {
	g := int(t.glyph(r))
	if g >= len(t.advances) {
		g = len(t.advances) - 1
	}
	return int(t.advances[g])
}

// mm returns units of the font at size points in millimetres.
func (t *table) mm(units int, size float64) float64 {
	return float64(units) / float64(t.unitsPerEm) * size * MM
}

var errShort = errors.New("the file is cut short")

// A part is a run of bytes of a font. Reading past its end gives zero and
// marks it broken, so that a whole part can be read before asking.
type part struct {
	data   []byte
	broken bool
}

func (p *part) u16(at int) int {
	if at < 0 || at+2 > len(p.data) {
		p.broken = true
		return 0
	}
	return int(binary.BigEndian.Uint16(p.data[at:]))
}

func (p *part) i16(at int) int { return int(int16(p.u16(at))) }

func (p *part) u32(at int) int { return p.u16(at)<<16 | p.u16(at+2) }

// parse reads a TrueType file with outlines of its own (no CFF).
func parse(data []byte) (*table, error) {
	file := &part{data: data}
	if kind := file.u32(0); kind != 0x00010000 {
		return nil, fmt.Errorf("not a TrueType file: it begins with %#08x", kind)
	}
	parts := map[string]*part{}
	for i := range file.u16(4) {
		at := 12 + 16*i
		start, size := file.u32(at+8), file.u32(at+12)
		if file.broken || start+size > len(data) {
			return nil, errShort
		}
		parts[string(data[at:at+4])] = &part{data: data[start : start+size]}
	}
	for _, name := range []string{"head", "hhea", "hmtx", "maxp", "loca", "cmap", "OS/2", "glyf"} {
		if parts[name] == nil {
			return nil, fmt.Errorf("it has no %s table", name)
		}
	}
	return assemble(parts)
}

// assemble reads the parts of a font that has them all.
func assemble(parts map[string]*part) (*table, error) {
	os2, head := parts["OS/2"], parts["head"]
	if v := os2.u16(0); v < 2 {
		return nil, fmt.Errorf("its OS/2 table is of version %d, which has no height of capitals", v)
	}
	t := &table{
		unitsPerEm: head.u16(18),
		ascent:     os2.i16(68),
		descent:    os2.i16(70),
		xHeight:    os2.i16(86),
		capHeight:  os2.i16(88),
	}
	n := parts["hhea"].u16(34)
	for g := range n {
		t.advances = append(t.advances, uint16(parts["hmtx"].u16(4*g)))
	}
	t.boxes = boxes(parts["maxp"].u16(4), head.u16(50) != 0, parts["loca"], parts["glyf"])
	var err error
	if t.glyphs, err = runes(parts["cmap"]); err != nil {
		return nil, err
	}
	for r := range t.common {
		t.common[r] = t.glyphs[rune(r)]
	}
	for _, p := range parts {
		if p.broken {
			return nil, errShort
		}
	}
	if t.unitsPerEm == 0 || n == 0 {
		return nil, errors.New("it has no units or no widths")
	}
	return t, nil
}

// boxes reads the box of each of n glyphs.
func boxes(n int, long bool, loca, glyf *part) []box {
	where := func(g int) int {
		if long {
			return loca.u32(4 * g)
		}
		return 2 * loca.u16(2*g)
	}
	all := make([]box, n)
	for g := range all {
		at := where(g)
		if at == where(g+1) {
			continue // a space has no outline
		}
		all[g] = box{
			left: int16(glyf.i16(at + 2)), low: int16(glyf.i16(at + 4)),
			right: int16(glyf.i16(at + 6)), top: int16(glyf.i16(at + 8)),
		}
	}
	return all
}

// runes reads which glyph stands for which rune from the Unicode subtable of
// format 4. That holds the basic plane, which is all fpdf can write.
func runes(cmap *part) (map[rune]uint16, error) {
	for i := range cmap.u16(2) {
		platform, encoding, at := cmap.u16(4+8*i), cmap.u16(6+8*i), cmap.u32(8+8*i)
		unicode := platform == 0 || platform == 3 && encoding == 1
		if unicode && cmap.u16(at) == 4 {
			return format4(&part{data: cmap.data[at:]})
		}
	}
	return nil, errors.New("it has no Unicode cmap of format 4")
}

func format4(sub *part) (map[rune]uint16, error) {
	glyphs := map[rune]uint16{}
	twice := sub.u16(6) // two times the number of segments
	for s := 0; s < twice; s += 2 {
		end, start := sub.u16(14+s), sub.u16(16+twice+s)
		delta := sub.u16(16 + 2*twice + s)
		offsetAt := 16 + 3*twice + s
		offset := sub.u16(offsetAt)
		for c := start; c <= end && c != 0xFFFF; c++ {
			g := c
			if offset != 0 {
				g = sub.u16(offsetAt + offset + 2*(c-start))
			}
			if g != 0 || offset == 0 {
				g = (g + delta) & 0xFFFF
			}
			if g != 0 {
				glyphs[rune(c)] = uint16(g)
			}
		}
		if sub.broken {
			return nil, errShort
		}
	}
	return glyphs, nil
}
