package law_test

import (
	"errors"
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/law"
)

// What the law of a crop year says of a commodity, with its status and where it stands.
// The Act of 2025 raised the reference price of corn to 4.10 (P.L. 119-21, sec. 10301).
func ExampleFind() {
	f, err := law.Find("reference_price", crop.Corn, 2026)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f %s, %s\n", f.Number, f.Unit, f.Status)
	fmt.Println(law.SourceOf(f).Key)
	// Output:
	// 4.10 USD/bu, law
	// P.L. 119-21
}

// A year before the first row has no value, never zero: seed cotton became a covered
// commodity with crop year 2018 (7 U.S.C. 9011(19)).
func ExampleFind_noValue() {
	_, err := law.Find("reference_price", crop.SeedCotton, 2017)
	fmt.Println(errors.Is(err, law.ErrNoValue), err)
	// Output: true program/law: reference_price, seed_cotton, crop year 2017: no value before crop year 2018
}

// All values of an id, each for its crop years: ARC-CO guarantees 86 percent of the
// benchmark under the Acts of 2014 and 2018, 90 percent since that of 2025.
func ExampleRows() {
	for _, f := range law.Rows("guarantee_share") {
		fmt.Println(f.First, f.Last, f.Text)
	}
	// Output:
	// 2014 2024 0.86
	// 2025 2031 0.90
}
