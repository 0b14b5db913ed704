package builtin

import (
	"reflect"
	"strings"
	"testing"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Lines of two invented States and their table of past crop years. 99002 has no base acres,
// 99001A no payment yield; of 2018 there are no adjusted yields. Oats have no list and are
// not read.
var inventedStates = []string{`99001,,,name,,Alder
99001,corn,all,actual,2018,150,160.5
99001,corn,all,benchmark,2018,148,151.25,152
99001,corn,all,nass,2018,170
99001,oats,all,actual,2019,60
99001A,,,name,,"Alder, North"
99001A,corn,irrigated,actual,2019,200
99001A,corn,irrigated,benchmark,2019,190
`, `99002,,,name,,Birch
99002,corn,all,actual,2019,100
99002,corn,all,benchmark,2019,90
99002,corn,all,nass_winter,2019,50,,52
`}

const inventedPast = pastHeading + `forecast,corn,,2019,2019-05-10,3.3
enrolled,corn,,2019,75,25
base_acres,corn,,,1000.25,30,
payment_yield,corn,,,110,,95
five_less_benchmark,corn,all,2019,-250,
five_less_benchmark,corn,irrigated,2019,0
`

// Worked out by hand: five yields of 151.25, 151.25, 151.25, 151.25 and 148.75 have the
// Olympic average 151.25 and a mean of .50 less, 2.50 in five.
func TestReadPast(t *testing.T) {
	got, err := readPast(inventedPast, inventedStates)
	if err != nil {
		t.Fatal(err)
	}
	of := func(county string, practice farm.Practice) farm.PastUnit {
		return farm.PastUnit{County: county, Commodity: crop.Corn, Practice: practice}
	}
	alder, north, birch := of("99001", farm.AllPractices), of("99001A", farm.Irrigated), of("99002", farm.AllPractices)
	want := farm.Past{
		Rows: []farm.PastRow{
			{PastUnit: alder, CropYear: 2018, BenchmarkYield: 148, ActualYield: 150, BaseAcres: 1000.25, PaymentYield: 110},
			{PastUnit: alder, CropYear: 2019, BenchmarkYield: 151.25, ActualYield: 160.5, BaseAcres: 1000.25, PaymentYield: 110, Adjusted: &[5]crop.Yield{151.25, 151.25, 151.25, 151.25, 148.75}},
			{PastUnit: birch, CropYear: 2019, BenchmarkYield: 90, ActualYield: 100, PaymentYield: 95},
			{PastUnit: north, CropYear: 2019, BenchmarkYield: 190, ActualYield: 200, BaseAcres: 30, Adjusted: &[5]crop.Yield{190, 190, 190, 190, 190}},
		},
		Forecasts: []farm.Forecast{{Date: time.Date(2019, 5, 10, 0, 0, 0, 0, time.UTC), Commodity: crop.Corn, CropYear: 2019, Price: 3.3}},
		Harvested: map[farm.PastSeries]map[crop.CropYear]crop.Yield{{PastUnit: alder}: {2018: 170}, {PastUnit: birch, Class: "winter"}: {2019: 50, 2021: 52}},
		Enrolled:  map[crop.Commodity]map[crop.CropYear]farm.Enrolled{crop.Corn: {2019: {PLC: 75, ARCCO: 25}}},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// A damaged line, and a list that does not fit the counties, are errors and no figures.
func TestPastDamaged(t *testing.T) {
	for _, change := range [][2]string{
		{"1000.25,30,", "1000.25,30"}, {"1000.25", "many"}, {"-250,", "-250"}, {"2019,0", "2020,0"}, {"2019-05-10", "in May"}, {",3.3", ",cheap"},
		{",75,25", ",75"}, {",75,25", ",all,25"}, {"base_acres", "bushels"}, {",2019,-250", ",soon,-250"},
	} {
		text := strings.Replace(inventedPast, change[0], change[1], 1)
		if got, err := readPast(text, inventedStates); err == nil || text == inventedPast {
			t.Errorf("%q for %q is read as %+v", change[1], change[0], got)
		}
	}
	if got, err := readPast(inventedPast, []string{"99001,corn,all\n"}); err == nil {
		t.Errorf("a broken State is read as %+v", got)
	}
}
