package front

import (
	"fmt"
	"math"
	"os"
	"testing"

	"fencerow/io/show/workbook/cells"
)

// The chart's lines turn where the law turns: PLC at the loan rate and the effective
// reference price, ARC-CO where it pays its most and where it starts.
func TestChartTurnsWhereTheLawTurns(t *testing.T) {
	b := Lay(testYears(t))
	put(b.figure(t, "crop_chosen"), "corn")
	found, err := cells.Evaluate(b.all())
	if err != nil {
		t.Fatal(err)
	}
	value := func(name string) float64 { return found.Number(b.figure(t, name)) }
	point := func(row int) (price, paid float64) {
		return found.Number(cells.At(b.lists, listChart, row)), found.Number(cells.At(b.lists, listChart+1, row))
	}
	for _, k := range []struct {
		row         int
		price, paid float64
	}{
		{plcPoints + 1, value("loan_rate"), (value("effective_reference_price") - value("loan_rate")) * value("plc_yield") * value("payment_acre_share")},
		{plcPoints + 2, value("effective_reference_price"), 0},
		{arcPoints + 2, (value("guarantee") - value("most_paid")) / value("county_yield"), value("most_paid") * value("payment_acre_share")},
		{arcPoints + 3, value("guarantee") / value("county_yield"), 0},
	} {
		if price, paid := point(k.row); math.Abs(price-k.price) > 1e-9 || math.Abs(paid-k.paid) > 1e-9 {
			t.Errorf("the point stands at %v, %v, want %v, %v", price, paid, k.price, k.paid)
		}
	}
}

// Where the chart says that the lines cross, both programs pay the same at that price, and
// at the figures on either side another pays more.
func TestLinesCrossWhereBothPayTheSame(t *testing.T) {
	years, crossings := testYears(t), 0
	yields := []float64{1}
	if os.Getenv("FENCEROW_LONG") != "" { // .ci/run sets it
		yields = append(yields, 0.8, 1.15)
	}
	for _, row := range years[0].Rows {
		for _, yield := range yields {
			b := Lay(years)
			put(b.figure(t, "county_chosen"), shownCounties(years[0].Rows)[row.County])
			put(b.figure(t, "crop_chosen"), cropShown(row.Commodity, practiceWord(row.Practice.Practice)))
			put(b.figure(t, "county_yield_typed"), yield*row.Practice.CountyYield.Value)
			found, err := cells.Evaluate(b.all())
			if err != nil {
				t.Fatal(err)
			}
			value := func(name string) float64 { return found.Number(b.figure(t, name)) }
			ahead := func(price float64) float64 { // PLC less ARC-CO, before the payment acres
				price = max(price, value("loan_rate"))
				return max(0, value("effective_reference_price")-price)*value("plc_yield") - min(value("most_paid"), max(0, value("guarantee")-value("county_yield")*price))
			}
			said := map[bool]int{}
			for _, name := range []string{"cross_flat", "cross_slope"} {
				if at := value(name); at > 0 {
					crossings++
					said[true]++
					if math.Abs(ahead(at)) > 1e-6 || ahead(0.9999*at)*ahead(1.0001*at) >= 0 {
						t.Errorf("%s: PLC is %v ahead at %v, %v and %v beside it", row.Commodity, ahead(at), at, ahead(0.9999*at), ahead(1.0001*at))
					}
				}
			}
			const steps = 5000
			turns, last := 0, 0.0
			for i := range steps {
				price := value("loan_rate") + (value("effective_reference_price")-value("loan_rate"))*(float64(i)+0.5)/steps
				if now := ahead(price); math.Abs(now) > 1e-9 {
					if now*last < 0 {
						turns++
					}
					last = now
				}
			}
			if words, _ := found[b.figure(t, "cross_words")].(string); turns != said[true] || (turns == 0) != (words == "The lines do not cross") {
				t.Errorf("%s at %v of its yield: the lines cross %d times, the chart says %q", row.Commodity, yield, turns, words)
			}
		}
	}
	fmt.Printf("checked %d crossings of the chart's lines\n", crossings)
	if crossings == 0 {
		t.Error("no lines cross")
	}
}
