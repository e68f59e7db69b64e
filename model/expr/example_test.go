package expr_test

import (
	"fmt"
	"os"

	"planset/model/expr"
	"planset/model/source"
)

// plan is a scope of two names.
type plan struct{}

func (plan) Lookup(name string, _ source.Span) (expr.Value, bool) {
	switch name {
	case "arm_h":
		return expr.Bare(21.5), true
	case "slope":
		return expr.Radians(0.25, expr.Level), true
	}
	return expr.Value{}, false
}

func ExampleFormula_Eval() {
	file := &source.File{Name: "chair.toml", Text: "arm_h - 2*3/4 in"}
	var problems source.List
	formula := expr.Parse(file.Text, source.Span{File: file, End: len(file.Text)}, &problems)
	value, _ := formula.Eval(expr.Inch, plan{}, &problems)
	mm, _ := value.AsLength(expr.Inch)
	fmt.Println(expr.Inch.Length(mm, expr.Coarse), "or", expr.MM.Long(mm))
	// Output: 20″ or 508 mm
}

func ExampleFormula_Eval_problem() {
	file := &source.File{Name: "chair.toml", Text: "arm_h + slope"}
	var problems source.List
	formula := expr.Parse(file.Text, source.Span{File: file, End: len(file.Text)}, &problems)
	formula.Eval(expr.Inch, plan{}, &problems)
	source.Write(os.Stdout, &problems, false)
	// Output:
	// chair.toml:1:1: error: cannot add arm_h = 21.5 (a number without a unit) and slope = 14.324 deg (an angle from level)
	//      1 | arm_h + slope
	//        | ^^^^^^^^^^^^^
	//          with arm_h = 21.5, slope = 14.324 deg
	//    help: if arm_h is an angle, write deg after its number where it is set   [formula-dimension]
}
