package wood

var (
	asmeB185   = Source{Published, "ASME B18.5 Table 2, round-head square-neck bolts"}
	asmeB1822  = Source{Published, "ASME B18.2.2-2015, hex nuts"}
	asmeB18211 = Source{Published, "ASME B18.21.1-2009, plain washers type A"}
	din603     = Source{Published, "DIN 603, mushroom-head square-neck bolts"}
	iso4032    = Source{Published, "ISO 4032, hex nuts style 1"}
	iso7089    = Source{Published, "ISO 7089, plain washers"}
	iso7089mem = Source{Memory, "ISO 7089, plain washers"}
	iso7093    = Source{Memory, "ISO 7093-1, large plain washers"}
)

// inches makes limits from a table in inches, greatest first.
func inches(greatest, least float64) Limits { return Limits{greatest * inch, least * inch} }

// washer makes a washer from a table in inches.
func washer(inside, outside, thick float64) Washer {
	return Washer{inside * inch, outside * inch, thick * inch, asmeB18211}
}

// inchLengths returns the sold lengths from a first one: by 1/4 in up to 4 in,
// then by 1/2 in up to 8 in.
func inchLengths(first float64) []float64 {
	var sold []float64
	for l := first; l <= 8; l += 0.25 {
		if l <= 4 || l == float64(int(2*l))/2 {
			sold = append(sold, l*inch)
		}
	}
	return sold
}

// inchBolt finishes an inch bolt: threads a turn an inch, shortest sold length,
// hole and thread (2D + 1/4 in up to 6 in long, 2D + 1/2 in above, from memory).
func inchBolt(b BoltSize, d, threads, first float64) BoltSize {
	b.Diameter, b.Pitch, b.Hole = d*inch, inch/threads, (d+1.0/32)*inch
	b.short, b.long, b.breakAt = (2*d+0.25)*inch, (2*d+0.5)*inch, 6*inch
	b.Source, b.Nut.Source = asmeB185, asmeB1822
	b.sold = inchLengths(first)
	return b
}

// inchBolts returns ASME B18.5 with B18.2.2 nuts and B18.21.1 washers.
func inchBolts() []BoltSize {
	return []BoltSize{
		inchBolt(BoltSize{
			Size: "1/4", Head: inches(0.594, 0.563), HeadHeight: inches(0.145, 0.125),
			Square: inches(0.260, 0.245), Neck: inches(0.156, 0.125),
			Nut:    Nut{Flats: inches(0.438, 0.428), Corners: inches(0.505, 0.488), Thick: inches(0.226, 0.212)},
			Narrow: washer(0.281, 0.625, 0.065), Wide: washer(0.312, 0.734, 0.065),
		}, 0.25, 20, 0.75),
		inchBolt(BoltSize{
			Size: "5/16", Head: inches(0.719, 0.688), HeadHeight: inches(0.176, 0.156),
			Square: inches(0.324, 0.307), Neck: inches(0.187, 0.156),
			Nut:    Nut{Flats: inches(0.500, 0.489), Corners: inches(0.577, 0.557), Thick: inches(0.273, 0.258)},
			Narrow: washer(0.344, 0.688, 0.065), Wide: washer(0.375, 0.875, 0.083),
		}, 0.3125, 18, 0.75),
		inchBolt(BoltSize{
			Size: "3/8", Head: inches(0.844, 0.782), HeadHeight: inches(0.208, 0.188),
			Square: inches(0.388, 0.368), Neck: inches(0.219, 0.188),
			Nut:    Nut{Flats: inches(0.562, 0.551), Corners: inches(0.650, 0.628), Thick: inches(0.337, 0.320)},
			Narrow: washer(0.406, 0.812, 0.065), Wide: washer(0.438, 1.000, 0.083),
		}, 0.375, 16, 1),
		inchBolt(BoltSize{
			Size: "7/16", Head: inches(0.969, 0.907), HeadHeight: inches(0.239, 0.219),
			Square: inches(0.452, 0.431), Neck: inches(0.250, 0.219),
			Nut:    Nut{Flats: inches(0.688, 0.675), Corners: inches(0.794, 0.768), Thick: inches(0.385, 0.365)},
			Narrow: washer(0.469, 0.922, 0.065), Wide: washer(0.500, 1.250, 0.083),
		}, 0.4375, 14, 1),
		inchBolt(BoltSize{
			Size: "1/2", Head: inches(1.094, 1.032), HeadHeight: inches(0.270, 0.250),
			Square: inches(0.515, 0.492), Neck: inches(0.281, 0.250),
			Nut:    Nut{Flats: inches(0.750, 0.736), Corners: inches(0.866, 0.840), Thick: inches(0.448, 0.427)},
			Narrow: washer(0.531, 1.062, 0.095), Wide: washer(0.562, 1.375, 0.109),
		}, 0.5, 13, 1),
	}
}

// metricLengths are the nominal lengths of ISO 888, from memory, in the range
// that is commonly sold.
func metricLengths(first float64) []float64 {
	var sold []float64
	for _, l := range [...]float64{
		16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100,
		110, 120, 130, 140, 150, 160, 180, 200,
	} {
		if l >= first {
			sold = append(sold, l)
		}
	}
	return sold
}

// metricBolt finishes a metric bolt: diameter, pitch, shortest sold length, and
// thread up to 125 mm long (6 mm more above). A hole one millimetre over keeps
// within D + 1/32 to D + 1/16 in.
func metricBolt(b BoltSize, d, pitch, thread float64) BoltSize {
	b.Metric, b.Diameter, b.Pitch, b.Hole = true, d, pitch, d+1
	b.short, b.long, b.breakAt = thread, thread+6, 125
	b.Source, b.Nut.Source = din603, iso4032
	first := 20.0
	if d < 8 {
		first = 16
	}
	b.sold = metricLengths(first)
	return b
}

// metricBolts returns DIN 603 with ISO 4032 nuts and ISO 7089 and 7093 washers.
func metricBolts() []BoltSize {
	return []BoltSize{
		metricBolt(BoltSize{
			Size: "M5", Head: Limits{13.55, 12.45}, HeadHeight: Limits{3.3, 2.7},
			Square: Limits{5.48, 4.52}, Neck: Limits{4.1, 2.9},
			Nut:    Nut{Flats: Limits{Max: 8}, Thick: Limits{4.7, 4.4}},
			Narrow: Washer{5.3, 10, 1, iso7089mem}, Wide: Washer{5.3, 15, 1.2, iso7093},
		}, 5, 0.8, 16),
		metricBolt(BoltSize{
			Size: "M6", Head: Limits{16.55, 15.45}, HeadHeight: Limits{3.88, 3.12},
			Square: Limits{6.48, 5.52}, Neck: Limits{4.6, 3.4},
			Nut:    Nut{Flats: Limits{Max: 10}, Corners: Limits{Min: 11.05}, Thick: Limits{5.2, 4.9}},
			Narrow: Washer{6.4, 12, 1.6, iso7089mem}, Wide: Washer{6.4, 18, 1.6, iso7093},
		}, 6, 1, 18),
		metricBolt(BoltSize{
			Size: "M8", Head: Limits{20.65, 19.35}, HeadHeight: Limits{4.88, 4.12},
			Square: Limits{8.58, 7.42}, Neck: Limits{5.6, 4.4},
			Nut:    Nut{Flats: Limits{Max: 13}, Corners: Limits{Min: 14.38}, Thick: Limits{6.8, 6.44}},
			Narrow: Washer{8.4, 16, 1.6, iso7089mem}, Wide: Washer{8.4, 24, 2, iso7093},
		}, 8, 1.25, 22),
		metricBolt(BoltSize{
			Size: "M10", Head: Limits{24.65, 23.35}, HeadHeight: Limits{5.38, 4.62},
			Square: Limits{10.58, 9.42}, Neck: Limits{6.6, 5.4},
			Nut:    Nut{Flats: Limits{Max: 16}, Corners: Limits{Min: 17.77}, Thick: Limits{8.4, 8.04}},
			Narrow: Washer{10.5, 20, 2, iso7089}, Wide: Washer{10.5, 30, 2.5, iso7093},
		}, 10, 1.5, 26),
		metricBolt(BoltSize{
			Size: "M12", Head: Limits{30.65, 29.35}, HeadHeight: Limits{6.95, 6.05},
			Square: Limits{12.7, 11.3}, Neck: Limits{8.75, 7.25},
			Nut:    Nut{Flats: Limits{Max: 18}, Corners: Limits{Min: 20.03}, Thick: Limits{10.8, 10.37}},
			Narrow: Washer{13, 24, 2.5, iso7089mem}, Wide: Washer{13, 37, 3, iso7093},
		}, 12, 1.75, 30),
		metricBolt(BoltSize{
			Size: "M16", Head: Limits{38.8, 37.2}, HeadHeight: Limits{8.95, 8.05},
			Square: Limits{16.7, 15.3}, Neck: Limits{12.9, 11.1},
			Nut:    Nut{Flats: Limits{Max: 24}, Thick: Limits{14.8, 14.1}},
			Narrow: Washer{17, 30, 3, iso7089mem}, Wide: Washer{17, 50, 3, iso7093},
		}, 16, 2, 38),
	}
}
