package site_test

import (
	"fmt"
	"net/url"
	"strings"
	"time"

	"fencerow/io/site"
)

// The file to keep is what was typed, as an operation file.
func ExampleSite_Answer() {
	s := &site.Site{Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Seed: 1, Draws: 1024}
	kept := s.Answer(site.Request{Path: "/keep", Form: url.Values{
		"f1.county": {"Story, Iowa"}, "f1.number": {"0417"}, "f1.b1.crop": {"corn"}, "f1.b1.acres": {"120"}, "f1.b1.yield": {"171"},
	}})
	fmt.Println(kept.Name)
	fmt.Print(strings.TrimSpace(string(kept.Body)))
	// Output:
	// operation.yaml
	// format: fencerow/operation/1
	// producers:
	//   - {id: operator, kind: person}
	// farms:
	//   - farm: "0417"
	//     county: "Story, Iowa"
	//     shares:
	//       operator: 100%
	//     bases:
	//       - commodity: "corn"
	//         base_acres: 120
	//         payment_yield: 171
}
