package kept

import (
	"bufio"
	"bytes"
	"encoding/json"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// A book is written county by county as it would be at once.
func TestBookIsWrittenAsAtOnce(t *testing.T) {
	county := func(code string) farm.County {
		return farm.County{Code: code, Name: "Alder & <Birch>", Yields: []farm.CountyYield{{Commodity: crop.Corn, Actual: map[crop.CropYear]crop.Yield{2024: 180.25, 2023: 1e-9}}}}
	}
	for _, book := range []farm.CountyBook{
		{}, {{Name: "none", Counties: map[string]farm.County{}}},
		{{Name: "\"one\"", Status: crop.Agency, Agency: true, Counties: map[string]farm.County{"99003": county("99003"), "99001": county("99001")}}, {Name: "two", Counties: map[string]farm.County{"99005A": county("99005A")}}},
	} {
		var got, want bytes.Buffer
		out := bufio.NewWriter(&got)
		if err := writeBook(out, book); err != nil {
			t.Fatal(err)
		}
		out.Flush()
		json.NewEncoder(&want).Encode(book)
		if got.String() != want.String() {
			t.Errorf("%s\nwant\n%s", got.String(), want.String())
		}
	}
}
