package wood

// Pocket-hole joinery, common practice of the trade.
const (
	PocketAngle = 15.0           // degrees between the drill's axis and the face
	PocketDrill = 3.0 / 8 * inch // mm, the pocket's diameter
)

// A Pocket is the pocket screw for a stock thickness.
type Pocket struct {
	Thick  float64 // the table's thickness, mm
	Length float64 // of the screw, mm
	Source Source
}

// PocketScrew returns the pocket screw for stock of a thickness in mm, in inch
// or metric lengths: the row of the thickest stock that is not thicker, with a
// millimetre of grace for planed boards. ok is false under 1/2 in (12 mm) and
// over 1-1/2 in (38 mm), where a pocket screw is not the joint. Hardwood takes
// the fine thread, softwood the coarse one; outdoors stainless or coated.
func PocketScrew(thick float64, metric bool) (Pocket, bool) {
	const grace = 1.0
	rows := Pockets(metric)
	if thick > rows[len(rows)-1].Thick+grace {
		return Pocket{}, false
	}
	var found Pocket
	for _, row := range rows {
		if row.Thick <= thick+grace {
			found = row
		}
	}
	return found, found.Length > 0
}

// Pockets returns the table of pocket screws, thinnest stock first.
func Pockets(metric bool) []Pocket {
	practice := Source{Practice, "pocket-screw length by stock thickness"}
	if metric {
		return []Pocket{
			{12, 25, practice}, {16, 25, practice}, {19, 32, practice}, {22, 38, practice}, {25, 38, practice},
			{28, 45, practice}, {32, 50, practice}, {35, 50, practice}, {38, 64, practice},
		}
	}
	return []Pocket{
		{1.0 / 2 * inch, 1 * inch, practice}, {5.0 / 8 * inch, 9.0 / 8 * inch, practice},
		{3.0 / 4 * inch, 5.0 / 4 * inch, practice}, {7.0 / 8 * inch, 3.0 / 2 * inch, practice},
		{1 * inch, 3.0 / 2 * inch, practice}, {9.0 / 8 * inch, 7.0 / 4 * inch, practice},
		{5.0 / 4 * inch, 2 * inch, practice}, {11.0 / 8 * inch, 2 * inch, practice},
		{3.0 / 2 * inch, 5.0 / 2 * inch, practice},
	}
}
