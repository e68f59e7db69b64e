package check

// rules are all rules. A new one is one file and one line here.
func rules() []rule {
	return []rule{
		{"overlap", WastedBoard, overlap},
		{"stands", Unsafe, stands},
	}
}
