package source_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"fencerow/io/source"
	"fencerow/program/farm"
	"fencerow/sim/compare"
	"fencerow/sim/invented/sound"
)

// alderFile is the county of the invented farm.
const alderFile = `format: fencerow/county/1
code: "99001"
name: Alder County
yields:
  - {commodity: corn, practice: all, adjusted: {2026: [180, 180, 180, 180, 180]}, outlook: {2026: {yield: 180, known_from: local_harvest}}}
`

// rest divides the three files of a question in one text.
const rest = "%%\n"

// Whatever stands in an operation file, a county file and a market file, the question is refused with mistakes, or with an
// error of the odds, or its answer is finite and can be written.
func FuzzCompare(f *testing.F) {
	plain := string(files["operation.yaml"].Data)
	shared := strings.Replace(plain, "producers: [{id: operator}]", "settings: {payment_limit: {2026: 1000}, sequestration: {2026: 0.057}}\nproducers: [{id: operator, kind: pass_through, members: [{id: ann, share: 0.5}]}, {id: ann, kind: person}]", 1)
	own := strings.Replace(plain, "bases:", "planted: [{crop_year: 2026, commodity: corn, acres: 100, yield: 120}]\n    arc_ic_history: {corn: {2020: 171, 2021: 160, 2022: 150, 2023: 170, 2024: 180}}\n    bases:", 1)
	market := string(files["market.yaml"].Data)
	var starts []string
	for _, operation := range []string{plain, shared, own} {
		operation = strings.Replace(operation, "market_file", "county_files: [alder.yaml]\nmarket_file", 1)
		starts = append(starts, operation+rest+alderFile+rest+market)
	}
	sound.ReadWords(f, "testdata/fuzz/words.txt").Fuzz(f, starts, func(t *testing.T, text []byte) {
		parts := strings.SplitN(string(text), rest, 3)
		if len(parts) < 3 {
			return
		}
		in := fstest.MapFS{"operation.yaml": {Data: []byte(parts[0])}, "alder.yaml": {Data: []byte(parts[1])}, "market.yaml": {Data: []byte(parts[2])}}
		found, err := source.Question(source.Request{Files: in, Operation: "operation.yaml", WithoutBuiltIn: true, Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Draws: 256})
		if err != nil {
			var mistakes farm.Mistakes
			if !errors.As(err, &mistakes) {
				t.Errorf("%v is not farm.Mistakes", err)
			}
			return
		}
		answer, err := compare.Answer(found.Question)
		if err != nil {
			return
		}
		if err := sound.Finite(answer); err != nil {
			t.Error(err)
		}
		if _, err := json.Marshal(answer); err != nil {
			t.Error(err)
		}
	})
}
