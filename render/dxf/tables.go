package dxf

import "planset/model/geom"

// millimetres is the number of the unit in the variable $INSUNITS.
const millimetres = 4

// header writes the variables of the drawing. $INSUNITS is younger than
// release 12; readers that do not know it pass it over.
func (p *plotter) header(box geom.Box) {
	if box.Empty() {
		box = geom.Box{}
	}
	p.pair(0, "SECTION")
	p.pair(2, "HEADER")
	p.pair(9, "$ACADVER")
	p.pair(1, "AC1009")
	p.pair(9, "$INSUNITS")
	p.whole(70, millimetres)
	p.pair(9, "$EXTMIN")
	p.point(10, box.Min)
	p.number(30, 0)
	p.pair(9, "$EXTMAX")
	p.point(10, box.Max)
	p.number(30, 0)
	p.pair(0, "ENDSEC")
}

// tables writes the one line type, the layers and the one text style.
func (p *plotter) tables() {
	p.pair(0, "SECTION")
	p.pair(2, "TABLES")

	p.table("LTYPE", 1)
	p.pair(0, "LTYPE")
	p.pair(2, "CONTINUOUS")
	p.whole(70, 0)
	p.pair(3, "Solid line")
	p.whole(72, 65)
	p.whole(73, 0)
	p.number(40, 0)
	p.pair(0, "ENDTAB")

	p.table("LAYER", len(layers))
	for _, l := range layers {
		p.pair(0, "LAYER")
		p.pair(2, l.name)
		p.whole(70, 0)
		p.whole(62, l.colour)
		p.pair(6, "CONTINUOUS")
	}
	p.pair(0, "ENDTAB")

	p.table("STYLE", 1)
	p.pair(0, "STYLE")
	p.pair(2, "STANDARD")
	p.whole(70, 0)
	p.number(40, 0) // any height
	p.number(41, 1)
	p.number(50, 0)
	p.whole(71, 0)
	p.number(42, 1)
	p.pair(3, "txt")
	p.pair(4, "")
	p.pair(0, "ENDTAB")

	p.pair(0, "ENDSEC")
}

func (p *plotter) table(name string, entries int) {
	p.pair(0, "TABLE")
	p.pair(2, name)
	p.whole(70, entries)
}
