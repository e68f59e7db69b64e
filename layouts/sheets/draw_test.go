package sheets

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
	"planset/render/pdf"
)

// realPlan returns a real plan, from the files a user has.
func realPlan(t testing.TB, name, variant string, unit expr.Unit) *model.Plan {
	t.Helper()
	var problems source.List
	d := reading.Load(os.DirFS("../../examples"), name, "", &problems)
	p := assembly.Solve(d, assembly.Options{Variant: variant, Unit: unit}, &problems)
	var b strings.Builder
	source.Write(&b, &problems, false)
	require.False(t, problems.Failed(), b.String())
	return p
}

// drawn is the input for the real chair.
func drawn(t testing.TB, variant string, unit expr.Unit) Input {
	return drawnPiece(t, "chair", variant, unit)
}

// drawnPiece is the input for a piece of the range.
func drawnPiece(t testing.TB, piece, variant string, unit expr.Unit) Input {
	paper := "letter"
	if unit == expr.MM {
		paper = "a4"
	}
	return Input{Plan: realPlan(t, "petrel-"+piece+"/plan.toml", variant, unit), Paper: paper}
}

// TestDrawLook writes the real books where DRAW says, for the eye.
func TestDrawLook(t *testing.T) {
	dir := os.Getenv("DRAW")
	if dir == "" {
		t.Skip("set DRAW to a folder to see the pages")
	}
	for _, piece := range []string{"chair", "footstool", "side-table"} {
		for _, variant := range []string{"", "tall"} {
			for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
				if variant != "" && piece != "chair" {
					continue
				}
				in := drawnPiece(t, piece, variant, unit)
				name := strings.TrimPrefix(piece, "chair") + variant + unit.String()
				book, problems := Compose(in)
				for _, s := range problems {
					t.Log(name, s)
				}
				var out bytes.Buffer
				require.NoError(t, pdf.Write(&out, book))
				require.NoError(t, os.WriteFile(dir+"/"+name+".pdf", out.Bytes(), 0o600))
			}
		}
	}
}
