package model

// A Kind is what a piece of furniture is, when its author says so. What it looks
// like says the rest: a piece that is sat on has a seat, a planter holds water.
type Kind string

// The kinds of furniture.
const (
	Chair    Kind = "chair"
	Bench    Kind = "bench"
	Stool    Kind = "stool"
	Table    Kind = "table"
	Planter  Kind = "planter"
	Bookcase Kind = "bookcase"
)

// Beside is what an author says of the chair that a stool or a table goes with.
// A value that was not given is 0.
type Beside struct {
	SeatHeight float64 // floor to the front edge of its seat, mm
	SeatSlope  float64 // radians from level
	ArmHeight  float64 // floor to the top of its arm, mm
}
