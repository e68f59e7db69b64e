package check

// rules are all rules. A new one is one file and one line here.
func rules() []rule {
	return []rule{
		{"stands", Unsafe, stands},
		{"screw-tip", Unsafe, screwTip},
		{"small-part", Unsafe, smallPart},
		{"sums", WastedBoard, sums},
		{"overlap", WastedBoard, overlap},
		{"fastener-clash", WastedBoard, fastenerClash},
		{"short-board", WastedBoard, shortBoard},
		{"saw", WastedBoard, saw},
		{"hands", WastedBoard, hands},
		{"bolt-edge", WastedBoard, boltEdge},
		{"washer-seat", WastedBoard, washerSeat},
		{"screw-end", WastedBoard, screwEnd},
		{"screw-edge", WastedBoard, screwEdge},
		{"movement", WastedBoard, movement},
		{"screw-bite", Rework, screwBite},
		{"bolt-length", Rework, boltLength},
		{"length-sold", Rework, lengthSold},
		{"steel-in-tannin", Rework, steelInTannin},
		{"steps-whole", Rework, stepsWhole},
		{"left-loose", Rework, leftLoose},
		{"touching", Rework, touching},
		{"fan-clear", Rework, fanClear},
		{"seat", Rework, seat},
		{"arris", Rework, arris},
		{"slat-gap", Ugly, slatGap},
	}
}
