package model

// A Stage is a run of steps that builds one thing: a sub-assembly.
type Stage struct {
	Key, Title, Text string
	Exploded         Exploded
}

// Exploded is how something is drawn taken apart. The zero value leaves it to
// the program.
type Exploded struct {
	View  string  // camera in words
	Apart float64 // mm that joints are opened by
}

// A Step is one action.
type Step struct {
	Number  int
	Stage   string // key of its stage
	Title   string
	Do      string
	Notes   []string
	Test    string
	Watch   string
	Mistake string
	Make    []*Part  // parts cut and shaped here
	Add     []int    // indices into Placed
	Fasten  []*Joint // joints made here
	Loose   bool     // their bolts stay loose
	Tighten []*Joint
	Glue    []*Joint
	Dry     bool
	Finish  bool // a coat goes on here
	People  int
	Minutes int
	View    string // camera in words
	Turned  string // told to the builder when the work is turned over
	Alert   []string
	Alerts  []Caution // filled in by shop
	Gauge   string    // name of a measure shown on the check line
	Shows   []Show    // what is measured, where it is measured
	Wrong   *Wrong    // what the mistake looks like; nil when it is only told
	Bit     float64   // length of the long bit that its screws take, mm; 0 for the usual one
	Angled  bool      // its screws take a right-angle driver
	Bare    []*Joint  // its coat leaves the faces of these bare, for glue
}
