package sheets

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/expr"
	"planset/model/shop/shoptest"
	"planset/render/pdf"
)

// TestLook writes the books where LOOK says, for the eye.
func TestLook(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip("set LOOK to a folder to see the pages")
	}
	for name, in := range map[string]Input{"inch": chair(expr.Inch, "letter"), "metric": chair(expr.MM, "a4")} {
		book, problems := Compose(in)
		t.Log(name, problems)
		var out bytes.Buffer
		require.NoError(t, pdf.Write(&out, book))
		require.NoError(t, os.WriteFile(dir+"/"+name+".pdf", out.Bytes(), 0o600))
	}
}

// chair is the input most tests use.
func chair(unit expr.Unit, paper string) Input {
	plan := shoptest.Chair(unit, shoptest.Standard())
	return Input{Plan: plan, Others: []*model.Plan{shoptest.Chair(unit, shoptest.Tall())}, Cuts: shoptest.Cuts(plan), Paper: paper}
}
