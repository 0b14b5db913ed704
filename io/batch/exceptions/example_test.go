package exceptions_test

import (
	"fmt"
	"os"

	"fencerow/io/batch/exceptions"
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// Two farms: a missing yield of one goes first, though the other has more dollars. What both
// have in the same words stands once, with the dollars of both: 100.50 + 900 = 1000.50.
func ExampleList() {
	list := exceptions.NewList(os.TempDir())
	defer list.Close()
	for number, dollars := range map[string]float64{"0417": 100.50, "0588": 900} {
		flags := []answer.Flag{{Code: "deadline_unknown", Severity: answer.Warning, Message: "The last day is not known."}}
		if number == "0417" {
			flags = append(flags, answer.Flag{Code: "payment_yield_missing", Severity: answer.Error, Message: "The corn base has no PLC yield."})
		} else {
			flags = append(flags, answer.Flag{Code: "flex_lease", Severity: answer.Warning, Message: "The lease is flexible."})
		}
		part := answer.FarmPart{Farm: "99001-" + number, Flags: flags, Commodities: []answer.CommodityPart{{Commodity: crop.Corn}, {Commodity: crop.Soybeans}}}
		for _, l := range exceptions.Of(exceptions.Farm{Number: number, CropYear: 2026, Part: part, Dollars: &dollars, Words: func(text string) string { return text }}) {
			list.Add(l.Record())
		}
	}
	list.Each(func(r []string) error {
		fmt.Printf("%s farm %q %q: %s (%s, %s farms)\n", r[0], r[3], r[6], r[8], r[9], r[10])
		return nil
	})
	// Output:
	// error farm "0417" "corn": The corn base has no PLC yield. (100.50, 1 farms)
	// warning farm "" "": The last day is not known. (1000.50, 2 farms)
	// warning farm "0588" "corn, soybeans": The lease is flexible. (900.00, 1 farms)
}
