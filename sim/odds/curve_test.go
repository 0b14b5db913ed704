package odds

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// newStudentCurve works studentCurve out: the quantile of Student's t at the normal's 0, 1/64,
// ..., 8, scaled to a standard deviation of 1, and its slope for one step.
func newStudentCurve() curve {
	freedom := must("estimate_error_degrees_of_freedom", "all", "US", "t")
	t := distuv.StudentsT{Sigma: 1, Nu: freedom}
	scale := math.Sqrt((freedom - 2) / freedom)
	return newCurve(func(z float64) (float64, float64) {
		if z == 0 {
			return 0, scale * density(0) / t.Prob(0)
		}
		x := t.Quantile(below(-math.Abs(z))) // the lower tail, where u is exact
		return math.Copysign(scale*x, z), scale * density(z) / t.Prob(x)
	})
}

// The curve of Student's t that is read from its file is the one that its formula gives.
// Renew the file where the degrees of freedom change: go test ./sim/odds -run StudentCurve -update
func TestStudentCurveIsItsFormula(t *testing.T) {
	want := newStudentCurve()
	if *update {
		var file bytes.Buffer
		for k := curveEnd * curveSteps; k < len(want.value); k++ {
			fmt.Fprintf(&file, "%v %v\n", want.value[k], want.slope[k])
		}
		if err := os.WriteFile("studentcurve.txt", file.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		studentFile = file.String()
	}
	got, err := readHalfCurve(studentFile)
	if err != nil {
		t.Fatal(err)
	}
	const processors = 1e-14 // how far two kinds of processor may differ
	for k, value := range want.value {
		if math.Abs(got.value[k]-value) > processors*(1+math.Abs(value)) || math.Abs(got.slope[k]-want.slope[k]) > processors*(1+math.Abs(want.slope[k])) {
			t.Errorf("step %d: %v, slope %v; by the formula %v, slope %v", k, got.value[k], got.slope[k], value, want.slope[k])
		}
	}
	for _, bad := range []string{"", "1 2\n", strings.Repeat("one 2\n", curveEnd*curveSteps+1)} {
		if _, err := readHalfCurve(bad); err == nil {
			t.Errorf("%q was read", bad)
		}
	}
	t.Logf("checked %d steps", len(want.value))
}
