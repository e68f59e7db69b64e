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
	paper := "letter"
	if unit == expr.MM {
		paper = "a4"
	}
	return Input{Plan: realPlan(t, "petrel-chair/plan.toml", variant, unit), Paper: paper}
}

// TestDrawLook writes the real books where DRAW says, for the eye.
func TestDrawLook(t *testing.T) {
	dir := os.Getenv("DRAW")
	if dir == "" {
		t.Skip("set DRAW to a folder to see the pages")
	}
	for _, variant := range []string{"", "tall"} {
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			name := variant + unit.String()
			book, problems := Compose(drawn(t, variant, unit))
			for _, s := range problems {
				t.Log(name, s)
			}
			var out bytes.Buffer
			require.NoError(t, pdf.Write(&out, book))
			require.NoError(t, os.WriteFile(dir+"/"+name+".pdf", out.Bytes(), 0o600))
		}
	}
}
