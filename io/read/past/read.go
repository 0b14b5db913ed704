package past

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"fencerow/io/read/yields"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// commodities are those read: WASDE forecasts their prices and NASS has long
// series of their yields. Names as the tables have them, in lower case.
var commodities = map[string]crop.Commodity{
	"corn": crop.Corn, "soybeans": crop.Soybeans, "wheat": crop.Wheat, "grain sorghum": crop.GrainSorghum, "sorghum": crop.GrainSorghum,
}

// ErrMissing is wrapped by the error about files that the folder lacks.
var ErrMissing = errors.New("files are missing")

// Read reads the tables from a folder. An error names the files that are
// missing, or file, line and value of the first mistake.
func Read(folder string) (farm.Past, error) {
	p := farm.Past{Harvested: map[farm.PastSeries]map[crop.CropYear]crop.Yield{}, Enrolled: map[crop.Commodity]map[crop.CropYear]farm.Enrolled{}}
	base := baseAcres{}
	files := []struct {
		name string
		take func(row) error
	}{
		{"fsa/arcco_county_py2014_2018.csv.gz", func(r row) error { return readCounty(&p, r, "crop") }},
		{"fsa/arcco_county_py2019_2025.csv.gz", func(r row) error { return readCounty(&p, r, "crop_name") }},
		{"fsa/county_base_acres_2014_2023.csv.gz", base.read},
		{"fsa/enrolled_base_acres_py2015_2024.csv", func(r row) error { return readEnrolled(&p, r) }},
		{"wasde/us_season_average_price_2010_2025.csv", func(r row) error { return readForecast(&p, r) }},
		{"nass/county_yields_1980_2025.csv.gz", func(r row) error { return readHarvested(&p, r) }},
	}
	var lacks []string
	for _, f := range files {
		if _, err := os.Stat(filepath.Join(folder, f.name)); err != nil {
			lacks = append(lacks, f.name)
		}
	}
	if len(lacks) > 0 {
		return p, fmt.Errorf("%w in %s: %s", ErrMissing, folder, strings.Join(lacks, ", "))
	}
	for _, f := range files {
		if err := eachRow(filepath.Join(folder, f.name), f.take); err != nil {
			return p, err
		}
	}
	for i := range p.Rows {
		base.set(&p.Rows[i])
	}
	return p, nil
}

// readCounty reads a row of FSA's county tables; those without a payment rate are
// left out.
func readCounty(p *farm.Past, r row, cropColumn string) error {
	c, counts := commodities[strings.ToLower(r.text(cropColumn))]
	if !counts || r.text("payment_rate") == "" || r.text("actual_yield") == "" {
		return nil
	}
	practice := farm.AllPractices
	switch strings.ToLower(r.text("yield_designation")) {
	case "irrigated":
		practice = farm.Irrigated
	case "nonirrigated", "non-irrigated":
		practice = farm.Nonirrigated
	}
	out := farm.PastRow{
		PastUnit: farm.PastUnit{County: r.text("st_cty") + r.text("sub_county"), Commodity: c, Practice: practice},
		CropYear: int(r.figure("program_year")), BenchmarkYield: r.figure("benchmark_yield"), BenchmarkRevenue: r.figure("benchmark_revenue"),
		ActualYield: r.figure("actual_yield"), MYA: r.figure("national_price"), Rate: r.figure("payment_rate"),
	}
	if r.text("yield_lag6") != "" {
		out.Adjusted = &[5]crop.Yield{r.figure("yield_lag6"), r.figure("yield_lag5"), r.figure("yield_lag4"), r.figure("yield_lag3"), r.figure("yield_lag2")}
	}
	if r.err() == nil {
		p.Rows = append(p.Rows, out)
	}
	return r.err()
}

// readEnrolled reads a row of FSA's enrolled base acres.
func readEnrolled(p *farm.Past, r row) error {
	c, counts := commodities[strings.ToLower(r.text("commodity"))]
	if !counts {
		return nil
	}
	if p.Enrolled[c] == nil {
		p.Enrolled[c] = map[crop.CropYear]farm.Enrolled{}
	}
	p.Enrolled[c][int(r.figure("program_year"))] = farm.Enrolled{PLC: r.figure("plc_acres"), ARCCO: r.figure("arcco_total_acres")}
	return r.err()
}

// readForecast reads a row of WASDE's season-average prices: the projection or estimate of
// the report for a marketing year, not the one of the report before.
func readForecast(p *farm.Past, r row) error {
	c, counts := commodities[strings.ToLower(r.text("commodity"))]
	if !counts || r.text("status") != "Proj." && r.text("status") != "Est." || r.text("column") == "previous" || r.text("low") == "" {
		return nil
	}
	first, _, _ := strings.Cut(r.text("market_year"), "/")
	p.Forecasts = append(p.Forecasts, farm.Forecast{
		Date: r.date("report_date"), Commodity: c, CropYear: int(r.parse("market_year", first)), Price: (r.figure("low") + r.figure("high")) / 2,
	})
	return r.err()
}

// readHarvested reads a row of NASS's county yields, practices and classes of
// wheat apart as the county book has them.
func readHarvested(p *farm.Past, r row) error {
	c, class, practice, known := yields.Item(r.text("short_desc"))
	if !known || !isRead(c) {
		return nil
	}
	u := farm.PastSeries{PastUnit: farm.PastUnit{County: r.text("state_ansi") + r.text("county_code"), Commodity: c, Practice: practice}, Class: class}
	if p.Harvested[u] == nil {
		p.Harvested[u] = map[crop.CropYear]crop.Yield{}
	}
	p.Harvested[u][int(r.figure("year"))] = r.figure("value")
	return r.err()
}

func isRead(c crop.Commodity) bool {
	for _, read := range commodities {
		if read == c {
			return true
		}
	}
	return false
}

// baseAcres are the newest base acres and payment yields of a county that have
// its code.
type baseAcres map[baseKey]baseOf

type baseKey struct {
	county    string
	commodity crop.Commodity
}

type baseOf struct {
	year  crop.CropYear
	acres crop.Acres
	yield crop.Yield
}

func (b baseAcres) read(r row) error {
	c, counts := commodities[strings.ToLower(r.text("crop"))]
	if !counts || r.text("county_fips") == "" || r.text("state_fips") == "" || r.text("base_acres") == "" {
		return nil
	}
	k := baseKey{r.text("state_fips") + r.text("county_fips"), c}
	of := baseOf{year: int(r.figure("program_year")), acres: r.figure("base_acres")}
	if r.text("avg_plc_yield") != "" {
		of.yield = r.figure("avg_plc_yield")
	}
	if of.year >= b[k].year {
		b[k] = of
	}
	return r.err()
}

func (b baseAcres) set(r *farm.PastRow) {
	of := b[baseKey{r.County, r.Commodity}]
	r.BaseAcres, r.PaymentYield = of.acres, of.yield
}
