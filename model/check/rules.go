package check

// rules are all rules. A new one is one file and one line here.
func rules() []rule {
	return []rule{
		{"stands", Unsafe, stands},
		{"screw-tip", Unsafe, screwTip},
		{"fastener-clash", WastedBoard, fastenerClash},
		{"overlap", WastedBoard, overlap},
		{"short-board", WastedBoard, shortBoard},
		{"bolt-edge", WastedBoard, boltEdge},
		{"screw-end", WastedBoard, screwEnd},
		{"screw-edge", WastedBoard, screwEdge},
		{"screw-bite", Rework, screwBite},
		{"steps-whole", Rework, stepsWhole},
		{"steel-in-tannin", Rework, steel},
		{"small-part", Unsafe, smallPart},
		{"seat", Rework, seat},
		{"hands", WastedBoard, hands},
		{"touching", Rework, contact},
	}
}
