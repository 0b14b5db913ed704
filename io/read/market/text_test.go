package market

import (
	"bytes"
	"reflect"
	"testing"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// A saved market is read back as it was, but for the file's name before each source, and
// laid over other prices it wins for every commodity and crop year of which it speaks.
func TestSavedMarketIsTheSame(t *testing.T) {
	day := func(text string) time.Time { d, _ := time.Parse(time.DateOnly, text); return d }
	m := Builtin()
	m.AsOf, m.Source = day("2026-11-10"), `the "November" report`
	m.MYA[crop.Corn][2025] = farm.Figure{Value: 4.1, Status: crop.Agency, Source: "FSA price table 1"}
	m.Printed[crop.Corn] = map[crop.CropYear]time.Time{2025: day("2026-10-05")}
	delete(m.Outlook[crop.Corn], 2025)
	m.Outlook[crop.Corn][2026] = farm.PriceOutlook{AsOf: m.AsOf, Figure: farm.Figure{Value: 4.55, Status: crop.Projected, Source: "WASDE"}}
	m.Months = map[crop.Commodity]map[crop.CropYear][]farm.MonthPrice{crop.Corn: {2026: {
		{Month: day("2026-09-01"), Price: 4.21, Weight: 0.08, WeightFrom: "as sold in the year of crop 2025"}, {Month: day("2026-10-01"), Price: 4.31, Weight: 0.125}}}}
	text := Text(m)
	read, err := Parse("folder/saved.yaml", text)
	if err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	if again := Text(m); !bytes.Equal(text, again) {
		t.Error("the same market gives other bytes")
	}
	over := read.Over(farm.Market{Months: map[crop.Commodity]map[crop.CropYear][]farm.MonthPrice{crop.Corn: {2026: {{Month: day("2026-11-01"), Price: 9, Weight: 0.5}}}}})
	if !over.AsOf.Equal(m.AsOf) || over.Source != m.Source || !reflect.DeepEqual(over.Months, m.Months) {
		t.Errorf("%v %q %v", over.AsOf, over.Source, over.Months)
	}
	if known := over.MYA[crop.Corn][2025]; known != (farm.Figure{Value: 4.1, Status: crop.Agency, Source: "saved.yaml: FSA price table 1"}) || !over.PriceDate(crop.Corn, 2025).Equal(day("2026-10-05")) {
		t.Errorf("%+v", known)
	}
	for c, years := range m.Outlook {
		if c.Index() < 0 {
			continue // a price that others follow, not of a covered commodity
		}
		for y, o := range years {
			o.Source = "saved.yaml: " + o.Source
			if got := read.Outlook[c][y]; !reflect.DeepEqual(got, o) {
				t.Errorf("%s %d: %+v, want %+v", c, y, got, o)
			}
		}
	}
}

// A known price of an agency needs its source.
func TestAgencyPriceNeedsItsSource(t *testing.T) {
	_, err := Parse("m.yaml", []byte("format: fencerow/market/1\nas_of: 2026-11-10\nsource: me\nmya: {corn: {2025: {price: 4.10, status: agency}}}\n"))
	if err == nil || !bytes.Contains([]byte(err.Error()), []byte("names no source")) {
		t.Errorf("%v", err)
	}
}
