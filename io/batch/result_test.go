package batch

import (
	"bytes"
	"errors"
	"strings"
	"testing"
)

// Results are written half up as everywhere: 0.85 x 9.10 = 7.735, which lies a hair lower
// in binary, is 7.74.
func TestHalfCentIsWrittenHalfUp(t *testing.T) {
	share, rate := 0.85, 9.10
	product := share * rate
	for x, want := range map[float64]string{product: "7.74", -product: "-7.74", 1.005: "1.01"} {
		if got := number(&x, money); got != want {
			t.Errorf("%v is written %s, want %s", x, got, want)
		}
	}
}

// A file has the same bytes whatever the same memory wrote before it.
func TestResultWriterLeavesNothingBehind(t *testing.T) {
	some := func(n int, differs bool) (all []Result) {
		for i := range n {
			mean := float64(i)
			r := Result{Farm: "99001-" + strings.Repeat("7", 1+i%5), Differs: differs != (i%3 == 0), PLCMean: &mean}
			if i%4 == 0 {
				r.PLCMean = nil
			}
			all = append(all, r)
		}
		return all
	}
	var again resultWriter
	for _, results := range [][]Result{some(700, true), some(13, false), some(1, false), nil, some(701, true), some(30, false)} {
		var first, later bytes.Buffer
		if err := errors.Join((&resultWriter{}).write(&first, results), again.write(&later, results)); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first.Bytes(), later.Bytes()) {
			t.Errorf("%d results: other bytes in memory that was used before", len(results))
		}
	}
}
