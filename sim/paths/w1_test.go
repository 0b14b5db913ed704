package paths

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
)

// w1 is the county of testdata/peers/w1.txt, which all peers read: invented bases
// and yields, prices near those of 2020 to 2025.
func w1(t testing.TB) County {
	t.Helper()
	text, err := os.ReadFile("../../testdata/peers/w1.txt")
	if err != nil {
		t.Fatal(err)
	}
	var n []float64
	for _, word := range regexp.MustCompile(`-?\d+(\.\d+)?`).FindAllString(string(text), -1) {
		x, err := strconv.ParseFloat(word, 64)
		if err != nil {
			t.Fatal(err)
		}
		n = append(n, x)
	}
	take := func(k int) []float64 { part := n[:k]; n = n[k:]; return part }
	c := County{First: 2026, Years: int(take(1)[0]), Limit: take(1)[0]}
	for _, name := range []crop.Commodity{crop.Corn, crop.Soybeans, crop.Wheat} {
		k := Commodity{Prices: take(6)}
		spread := take(3)
		k.Carry, k.Sigma = Carries(spread[0], spread[1], spread[2], c.Years)
		k.Yields, k.YieldSD = take(6), take(1)[0]
		k.PastPrices, k.PastYields = [6]float64(take(6)), [6]float64(take(6))
		reference, law := take(6), take(5)
		base := take(3)
		k.BaseAcres, k.PaymentAcres, k.PaymentYield = base[0], base[1], base[2]
		for y := range c.Years {
			terms, err := program.TermsFor(name, c.First+y)
			if err != nil {
				t.Fatal(err)
			}
			if terms.ReferencePrice != reference[y] || terms.LoanRate != law[0] || terms.AverageShare != law[1] || terms.EffectiveLimit != law[2] || terms.GuaranteeShare != law[3] || terms.MaximumShare != law[4] {
				t.Fatalf("%s %d: w1.txt differs from the law: %v, %v", name, c.First+y, reference[y], law)
			}
			k.Terms = append(k.Terms, terms)
		}
		c.Commodities = append(c.Commodities, k)
	}
	for range 6 {
		c.Loadings = append(c.Loadings, take(6))
	}
	if math.Abs(float64(len(n))) > 0 {
		t.Fatalf("%d numbers of w1.txt are left over", len(n))
	}
	return c
}
