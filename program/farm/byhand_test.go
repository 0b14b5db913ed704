package farm

import (
	"slices"
	"testing"
	"time"

	"fencerow/program/crop"
)

// A figure of a crop year goes before that of every year; without either there is none.
func TestByCropYear(t *testing.T) {
	seven := 7
	all := ByCropYear[int]{Every: &seven, Year: map[crop.CropYear]int{2026: 5}}
	for y, want := range map[crop.CropYear]int{2026: 5, 2027: 7} {
		if got, ok := all.In(y); got != want || !ok {
			t.Errorf("%d: %d, %v; want %d", y, got, ok, want)
		}
	}
	if got, ok := (ByCropYear[int]{Year: map[crop.CropYear]int{2026: 5}}).In(2027); got != 0 || ok {
		t.Errorf("a year without a figure has %d, %v", got, ok)
	}
}

// Those with a share in a base share in the farm: a base may have shares of its own, others have the farm's. A share
// of 0 is none, and a base of a crop says where it lies.
func TestWhoSharesInAFarm(t *testing.T) {
	f := Farm{County: "99001", Shares: ByCropYear[Shares]{Every: &Shares{"cy": 0.5, "ann": 0.5, "nobody": 0}},
		Bases: []Base{{Commodity: crop.Corn, BaseAcres: 40, Shares: Shares{"bob": 1}, County: "99003"}, {Commodity: crop.Corn, BaseAcres: 60}}}
	if got := f.Sharing(2026); !slices.Equal(got, []string{"ann", "bob", "cy"}) {
		t.Errorf("%v share", got)
	}
	f.Bases = f.Bases[:1]
	if got := f.Sharing(2026); !slices.Equal(got, []string{"bob"}) {
		t.Errorf("%v share in the base of bob", got)
	}
	f.Shares.Year = map[crop.CropYear]Shares{2026: {"dee": 1}}
	if got := (Farm{Shares: f.Shares, Bases: []Base{{Commodity: crop.Corn}}}).Sharing(2026); !slices.Equal(got, []string{"dee"}) {
		t.Errorf("%v share in 2026", got)
	}
	if lies, else_ := f.Bases[0].PhysicalCounty(f), (Base{}).PhysicalCounty(f); lies != "99003" || else_ != "99001" {
		t.Errorf("bases lie in %s and %s", lies, else_)
	}
}

// A layer of insurance is that of its crop and crop year.
func TestInsuranceOfACropYear(t *testing.T) {
	layered := func(y crop.CropYear, c crop.Commodity, p Program) Insurance {
		return Insurance{CropYear: y, Commodity: c, Layers: []Layer{{Program: p}}}
	}
	f := Farm{Insurance: []Insurance{layered(2026, crop.Corn, SCO), layered(2027, crop.Corn, ECO), layered(2026, crop.Soybeans, ECO)}}
	if got := f.InsuredIn(2026); len(got) != 2 || got[0].Commodity != crop.Corn || got[1].Commodity != crop.Soybeans {
		t.Errorf("insured in 2026: %+v", got)
	}
	for _, c := range []struct {
		p    Program
		crop crop.Commodity
		y    crop.CropYear
		has  bool
	}{{SCO, crop.Corn, 2026, true}, {ECO, crop.Corn, 2026, false}, {ECO, crop.Corn, 2027, true}, {ECO, crop.Soybeans, 2026, true}, {SCO, crop.Soybeans, 2026, false}} {
		if got := f.HasLayer(c.p, c.crop, c.y); got != c.has {
			t.Errorf("%s on %s in %d: %v", c.p, c.crop, c.y, got)
		}
	}
}

// A factor is above 0 and at most its bound: a volatility 1, a ratio of yields 3.
func TestCheckFactor(t *testing.T) {
	for number, right := range map[float64]bool{0: false, -0.1: false, 0.001: true, 1: true, 1.001: false} {
		if fault := CheckFactor("volatility", number, MostVolatility, "hint"); (fault == nil) != right {
			t.Errorf("%v: %+v", number, fault)
		}
	}
	for number, right := range map[float64]bool{3: true, 3.001: false} {
		if fault := CheckFactor("ratio", number, MostFactor, "hint"); (fault == nil) != right {
			t.Errorf("%v: %+v", number, fault)
		}
	}
	if fault := CheckFactor("ratio", 3.5, MostFactor, "at most 3"); *fault != (Fault{Reason: "ratio is 3.5", Hint: "at most 3"}) {
		t.Errorf("%+v", fault)
	}
}

// A refusal says what was typed and what to type.
func TestWhatARefusalSays(t *testing.T) {
	for _, c := range []struct {
		fault        *Fault
		reason, hint string
	}{
		{CheckAcres("acres", 1_000_001), "acres is 1000001", "at most 1000000 acres are read for one farm: copy them from the FSA farm record"},
		{CheckAcres("acres", 1_000_000), "", ""},
		{CheckBaseAcres("base", -1), "base is -1", "acres cannot be negative: copy them from the FSA farm record"},
		{CheckBaseAcres("base", 0.01), "", ""},
		{CheckShare("share", 35), "share is 35", "a share is from 0 to 1; write 35 percent as 0.35"},
		{CheckShare("share", 100), "share is 100", "a share is from 0 to 1; write 100 percent as 1"},
		{CheckShare("share", 101), "share is 101", "a share is from 0 to 1; write 35 percent as 0.35"},
		{CheckShare("share", -0.5), "share is -0.5", "a share is from 0 to 1; write 35 percent as 0.35"},
		{CheckShare("share", 0), "", ""},
		{CheckTotal("shares", 1.25), "shares add to 1.25", "together they can be at most 1. What is missing from 1 belongs to people outside the file"},
		{CheckCountyCode("county", "99001a"), `county is "99001a"`, "write the sub-county letter as a capital"},
		{CheckCountyCode("county", "1001"), `county is "1001"`, "write five digits; a spreadsheet may have dropped the zero of 01001"},
		{CheckCountyCode("county", "x"), `county is "x"`, "write State and county in five digits as FSA does, with the sub-county letter if there is one: 99001, 99003A"},
		{CheckCovered(crop.SeedCotton, 2015), "seed cotton is no covered crop in crop year 2015", "it is covered from crop year 2018 on"},
		{HistoryYears().Check("year", 2032), "year is 2032", "crop years from 1900 to 2031 can be given here"},
	} {
		got := Fault{}
		if c.fault != nil {
			got = *c.fault
		}
		if got != (Fault{Reason: c.reason, Hint: c.hint}) {
			t.Errorf("%+v, want %q and %q", got, c.reason, c.hint)
		}
	}
	mistakes := Mistakes{{File: "a.yaml", Line: 3, Reason: "acres is -1"}, {File: "a.yaml", Line: 5, Reason: "share is 2"}}
	if got := mistakes.Error(); got != "a.yaml line 3: acres is -1\na.yaml line 5: share is 2" {
		t.Errorf("mistakes: %q", got)
	}
}

// Every paper has its name in words; one alone is asked of entities.
func TestPapersHaveNames(t *testing.T) {
	all := Papers()
	if len(all) != len(paperNames) || !slices.Contains(all, MembersPaper) {
		t.Errorf("%d papers, %d names", len(all), len(paperNames))
	}
	for _, p := range all {
		if p.Name() == "" {
			t.Errorf("%s has no name", p)
		}
	}
}

// day is a day of 2026.
func day(month time.Month, d int) time.Time { return time.Date(2026, month, d, 0, 0, 0, 0, time.UTC) }

// marketOf is a market with prices of corn: known ones, and projections of a day.
func marketOf(asOf time.Time, source string, known, projected map[crop.CropYear]float64) Market {
	m := Market{AsOf: asOf, Source: source, MYA: map[crop.Commodity]map[crop.CropYear]Figure{crop.Corn: {}}, Outlook: map[crop.Commodity]map[crop.CropYear]PriceOutlook{crop.Corn: {}},
		Path: map[crop.Commodity]map[crop.CropYear]Figure{}, Correlation: map[crop.Commodity]map[string]float64{}, Printed: map[crop.Commodity]map[crop.CropYear]time.Time{}}
	for y, price := range known {
		m.MYA[crop.Corn][y] = Figure{Value: price, Status: crop.Agency}
	}
	for y, price := range projected {
		m.Outlook[crop.Corn][y] = PriceOutlook{Figure: Figure{Value: price, Status: crop.Projected}, AsOf: asOf}
	}
	return m
}

// holdPrices holds the prices of corn that a market has, by crop year; 0: none.
func holdPrices(t *testing.T, what string, m Market, want map[crop.CropYear]float64) {
	t.Helper()
	for y, price := range want {
		if got, ok := m.Price(crop.Corn, y); got.Value != price || ok != (price > 0) {
			t.Errorf("%s: %d is %v, %v; want %v", what, y, got.Value, ok, price)
		}
	}
}

// What the upper market says of a crop year, known or projected, replaces all that the lower says of it.
func TestOneMarketOverAnother(t *testing.T) {
	lower := marketOf(day(time.May, 1), "lower", map[crop.CropYear]float64{2023: 4.55, 2024: 4.24}, map[crop.CropYear]float64{2025: 4.00, 2026: 4.10})
	upper := marketOf(day(time.June, 1), "upper", map[crop.CropYear]float64{2025: 4.20}, map[crop.CropYear]float64{2024: 4.30, 2027: 4.40})
	lower.Path[crop.Corn] = map[crop.CropYear]Figure{2026: {Value: 4.1}, 2027: {Value: 4.2}}
	upper.Path[crop.Corn] = map[crop.CropYear]Figure{2027: {Value: 4.5}}
	lower.Correlation[crop.Corn] = map[string]float64{"soybeans": 0.6, "wheat": 0.4}
	upper.Correlation[crop.Corn] = map[string]float64{"wheat": 0.5}
	lower.Printed[crop.Corn] = map[crop.CropYear]time.Time{2023: day(time.April, 2), 2024: day(time.April, 3)}
	got := upper.Over(lower)
	holdPrices(t, "over", got, map[crop.CropYear]float64{2022: 0, 2023: 4.55, 2024: 4.30, 2025: 4.20, 2026: 4.10, 2027: 4.40})
	if _, known := got.MYA[crop.Corn][2024]; known {
		t.Error("the lower market's known price of 2024 is still there beside the upper's projection")
	}
	if got.Source != "upper" || !got.AsOf.Equal(day(time.June, 1)) || got.Path[crop.Corn][2026].Value != 4.1 || got.Path[crop.Corn][2027].Value != 4.5 {
		t.Errorf("of %s, %v; path %+v", got.Source, got.AsOf, got.Path)
	}
	if r := got.Correlation[crop.Corn]; r["soybeans"] != 0.6 || r["wheat"] != 0.5 {
		t.Errorf("correlations %v", r)
	}
	// A price has the day on which it was printed, a projection its own, any other that of the market.
	for y, want := range map[crop.CropYear]time.Time{2023: day(time.April, 2), 2024: day(time.June, 1), 2026: day(time.May, 1), 2025: day(time.June, 1)} {
		if on := got.PriceDate(crop.Corn, y); !on.Equal(want) {
			t.Errorf("the price of %d is of %v, want %v", y, on, want)
		}
	}
}

// Of a newer market only what the base does not know better is taken: known prices where it has none, and projections
// where it has neither a known price nor one of the same day or later.
func TestWhatANewerMarketAdds(t *testing.T) {
	base := marketOf(day(time.May, 1), "base", map[crop.CropYear]float64{2024: 4.24}, map[crop.CropYear]float64{2026: 4.10, 2025: 4.00})
	sameDay := marketOf(day(time.May, 1), "same", map[crop.CropYear]float64{2023: 4.55}, map[crop.CropYear]float64{2026: 9, 2024: 9, 2027: 4.40}).Newer(base)
	holdPrices(t, "the same day", sameDay, map[crop.CropYear]float64{2023: 4.55, 2024: 0, 2026: 0, 2027: 4.40})
	if sameDay.Source != "base" || !sameDay.AsOf.Equal(base.AsOf) {
		t.Errorf("the same day: of %s, %v", sameDay.Source, sameDay.AsOf)
	}
	later := marketOf(day(time.May, 2), "later", nil, map[crop.CropYear]float64{2026: 4.20, 2024: 9}).Newer(base)
	holdPrices(t, "a day later", later, map[crop.CropYear]float64{2024: 0, 2025: 0, 2026: 4.20})
	if later.Source != "later" || !later.AsOf.Equal(day(time.May, 2)) {
		t.Errorf("a day later: of %s, %v", later.Source, later.AsOf)
	}
}

// Entries are every source's word on a county, in the order of the book; codes are those of a State, sorted.
func TestEntriesAndCodesOfABook(t *testing.T) {
	county := func(name string, practices ...Practice) (c County) {
		c.Name = name
		for _, p := range practices {
			c.Yields = append(c.Yields, CountyYield{Commodity: crop.Corn, Practice: p})
		}
		return c
	}
	book := CountyBook{
		{Name: "one", Counties: map[string]County{"99003": county("Birch")}},
		{Name: "two", Counties: map[string]County{"99001": county("Alder", Irrigated, Nonirrigated, AllPractices), "98001": county("Far")}},
		{Name: "three", Counties: map[string]County{"99001": county("Alder", AllPractices), "99003": county("Birch")}},
	}
	got := book.Entries("99001", crop.Corn, AllPractices)
	if len(got) != 2 || got[0].Source.Name != "two" || got[1].Source.Name != "three" || got[0].CountyName != "Alder" {
		t.Errorf("%+v", got)
	}
	if all := book.Codes("99"); !slices.Equal(all, []string{"99001", "99003"}) {
		t.Errorf("codes %v", all)
	}
	// Without any benchmark the yields of all practices go before the pair.
	if all := book.Practices("99001", crop.Corn, 2026); !slices.Equal(all, []Practice{AllPractices}) {
		t.Errorf("practices %v", all)
	}
}

// A benchmark at most 12 years old says how a county splits its yields: one of 2014 does in 2026, not in 2027; a published
// benchmark yield and five adjusted yields say it alike.
func TestAgeOfABenchmark(t *testing.T) {
	yields := []CountyYield{{Commodity: crop.Corn, Practice: AllPractices}, {Commodity: crop.Corn, Practice: Irrigated, BenchmarkYield: map[crop.CropYear]float64{2014: 200}}, {Commodity: crop.Corn, Practice: Nonirrigated, Adjusted: map[crop.CropYear][5]float64{2014: {}}}}
	book := CountyBook{{Counties: map[string]County{"99001": {Yields: yields}}}}
	for y, want := range map[crop.CropYear][]Practice{2014: {Irrigated, Nonirrigated}, 2026: {Irrigated, Nonirrigated}, 2027: {AllPractices}} {
		if got := book.Practices("99001", crop.Corn, y); !slices.Equal(got, want) {
			t.Errorf("%d: practices %v, want %v", y, got, want)
		}
	}
	// One practice with a benchmark is enough.
	book = CountyBook{{Counties: map[string]County{"99001": {Yields: yields[:2]}}}}
	if got := book.Practices("99001", crop.Corn, 2020); !slices.Equal(got, []Practice{Irrigated}) {
		t.Errorf("one benchmark of 2014: practices %v in 2020", got)
	}
}
