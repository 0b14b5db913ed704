package table

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

func number(x float64) *float64 { return &x }

// Every figure below stands in corn2020; noise is gone, since equality is asked for.
func TestLayoutOf2020AndLater(t *testing.T) {
	path := build(t, testSheet{"ARCCO 2026 (2026-11-02)", append(top2020(2026), corn2020("99001", "Alder"))})
	_, rows, notes, err := ReadSheet(path)
	require.NoError(t, err)
	require.Empty(t, notes)
	require.Equal(t, []Row{{
		Line: 5, ProgramYear: 2026, Code: "99001", StateName: "Nowhere", CountyName: "Alder", Commodity: crop.Corn, Practice: farm.AllPractices,
		Adjusted:       [5]*float64{number(184.2), number(187), number(193.1), number(178.43), number(190.7)},
		BenchmarkYield: number(187.3), BenchmarkPrice: number(4.8), BenchmarkRevenue: number(899.04), Guarantee: number(773.17), MaximumRate: number(89.9),
		ActualYield: number(170), NationalPrice: number(4.5), ActualRevenue: number(765), FormulaRate: number(8.17), PaymentRate: number(8.17),
	}}, rows)

	source, _, err := Read(path)
	require.NoError(t, err)
	require.Equal(t, farm.CountySource{
		Name: "FSA ARC-CO county table, program year 2026, sheet 'ARCCO 2026 (2026-11-02)'", Status: crop.Agency, Agency: true,
		Counties: map[string]farm.County{"99001": {Code: "99001", Name: "Alder", Yields: []farm.CountyYield{{
			Commodity: crop.Corn, Practice: farm.AllPractices,
			Adjusted:       map[int][5]float64{2026: {184.2, 187, 193.1, 178.43, 190.7}},
			BenchmarkYield: map[int]float64{2026: 187.3},
			Actual:         map[int]float64{2026: 170},
		}}}},
	}, source)
}

// PY2019: a first line with 9 and 16 only, one line more above the headings, no
// Sub County.
func TestLayoutOf2019(t *testing.T) {
	top := top2020(2019)
	cut := func(line []any) []any { // without the fourth column
		return append(append([]any(nil), line[:3]...), line[4:]...)
	}
	sheet := lines{{nil, nil, nil, nil, nil, nil, nil, 9, nil, nil, 16}, top[0], top[1], {nil, nil, "(A * B)"}, cut(top[3]), cut(corn2020("99001", "Alder"))}
	require.Len(t, sheet[4], 22, "the agency's table of 2019 has 22 columns")
	_, rows, notes, err := ReadSheet(build(t, testSheet{"ARCCO 2021_1201", sheet}))
	require.NoError(t, err)
	require.Empty(t, notes)
	require.Len(t, rows, 1)
	require.Equal(t, 6, rows[0].Line)
	require.Equal(t, 2019, rows[0].ProgramYear)
	require.Equal(t, "99001", rows[0].Code)
	require.Equal(t, number(184.2), rows[0].Adjusted[0])
	require.Equal(t, number(8.17), rows[0].PaymentRate)
}

// 2014-2018: no trend-adjusted yields, whole units.
func TestLayoutOf2014To2018(t *testing.T) {
	head := []any{"ST_Cty", "State Name", "County Name", "Crop Name", "Unit", "Yield Designation", "2014 Bench Mark \n(2009-13 olympic avg)",
		"2014 Bench Mark Price", "2014 Benchmark Revenue", "2014 Guarantee Revenue", "2014 Maximum Payment Rate", "2014 Actual Yield",
		"2014 National Price", "2014 Actual Revenue", "2014 Formula Payment Rate", "2014 ARC-CO Payment Rate"}
	line := []any{"99003", "Nowhere", "Birch", "Sunflower Seed", "Pound", "Nonirrigated", 1400, 0.2434, 340.76, 293.05, 34.08, 1500, 0.2170, 325.5, 0, 0}
	path := build(t, testSheet{"2014", lines{head, line}})
	source, notes, err := Read(path)
	require.NoError(t, err)
	require.Empty(t, notes)
	require.Equal(t, []farm.CountyYield{{Commodity: crop.SunflowerSeed, Practice: farm.Nonirrigated,
		BenchmarkYield: map[int]float64{2014: 1400}, Actual: map[int]float64{2014: 1500}}}, source.Counties["99003"].Yields)
	_, rows, _, err := ReadSheet(path)
	require.NoError(t, err)
	require.Equal(t, number(0.2434), rows[0].BenchmarkPrice, "a price per pound keeps four decimals")
	require.Equal(t, number(0), rows[0].PaymentRate, "a published zero is zero")
}

// Columns are known by their words: moved about, with other words between and
// the crop years of the five yields as differences, the figures are the same.
func TestColumnsAreFoundByTheirHeadings(t *testing.T) {
	straight := append(top2020(2026), corn2020("99001", "Alder"))
	_, want, _, err := ReadSheet(build(t, testSheet{"a", straight}))
	require.NoError(t, err)
	var moved lines
	for _, line := range straight {
		if len(line) < 23 {
			moved = append(moved, line)
			continue
		}
		turned := []any{line[0], "Remark"}
		for i := len(line) - 1; i > 0; i-- {
			turned = append(turned, line[i])
		}
		moved = append(moved, turned)
	}
	for i, lag := range []string{"2026-2", "2026-3", "2026-4", "2026-5", "2026-6"} {
		moved[3][2+11+i] = lag + " trend adjusted"
	}
	_, got, notes, err := ReadSheet(build(t, testSheet{"a", moved}))
	require.NoError(t, err)
	require.Equal(t, want, got)
	require.Equal(t, []Note{{Line: 4, Text: "Remark", Reason: "heading not known: the column is not read"}}, notes)
}

// A blank is a figure that is not known. Program years 2024 and 2025 are
// published without actual yields; the japonica rows of 2024 without prices.
func TestBlankIsUnknown(t *testing.T) {
	line := corn2020("99001", "Alder")
	for _, column := range []string{"O", "P", "Q", "R", "S", "T", "U", "V", "W"} {
		line = with(line, column, nil)
	}
	path := build(t, testSheet{"a", append(top2020(2026), line, with(with(corn2020("99003", "Birch"), "S", " "), "K", "N/A"))})
	_, rows, notes, err := ReadSheet(path)
	require.NoError(t, err)
	require.Empty(t, notes)
	require.Nil(t, rows[0].ActualYield)
	require.Nil(t, rows[0].BenchmarkPrice)
	require.Nil(t, rows[0].PaymentRate)
	source, _, err := Read(path)
	require.NoError(t, err)
	require.Nil(t, source.Counties["99001"].Yields[0].Actual)
	require.Equal(t, 187.3, source.Counties["99001"].Yields[0].BenchmarkYield[2026])
	require.Nil(t, source.Counties["99003"].Yields[0].Adjusted, "four yields are not five")
	require.Equal(t, 187.3, source.Counties["99003"].Yields[0].BenchmarkYield[2026], "the published benchmark stands by itself")
}

// 99 is no state, so the codes that lost a zero are of state 09 here.
func TestCountyCodes(t *testing.T) {
	cases := []struct {
		rule         string
		code, letter any
		want         string
	}{
		{"text keeps its leading zero", "09901", nil, "09901"},
		{"a number gets it back", 9901, nil, "09901"},
		{"the sub-county letter goes behind", "99015", "A", "99015A"},
		{"whatever its case", 99015, "b", "99015B"},
		{"or stands in the code already", "99015A", nil, "99015A"},
	}
	for _, c := range cases {
		t.Run(c.rule, func(t *testing.T) {
			_, rows, notes, err := ReadSheet(build(t, testSheet{"a", append(top2020(2026), with(corn2020(c.code, "Alder"), "D", c.letter))}))
			require.NoError(t, err)
			require.Empty(t, notes)
			require.Equal(t, c.want, rows[0].Code)
		})
	}
}

// Decimals are those of the agency's publications: flaxseed is the one bushel
// crop whose price has four.
func TestDecimalsByCommodity(t *testing.T) {
	price := func(name, unit string, p float64) []any {
		return with(with(with(with(corn2020("99001", "Alder"), "E", name), "F", unit), "O", p), "S", 26.659999999999997)
	}
	_, rows, notes, err := ReadSheet(build(t, testSheet{"a", append(top2020(2026),
		price("Flaxseed", "bushel", 13.710599999999999), price("Seed Cotton", "Pound of seed", 0.36699999999999994), price("Wheat", "BUSHEL", 5.0499999999999998))}))
	require.NoError(t, err)
	require.Empty(t, notes)
	require.Equal(t, number(13.7106), rows[0].BenchmarkPrice)
	require.Equal(t, number(0.367), rows[1].BenchmarkPrice)
	require.Equal(t, number(5.05), rows[2].BenchmarkPrice)
	require.Equal(t, number(26.66), rows[0].ActualYield)
}

// Cells hold binary numbers as the agency's program left them.
func TestNoiseIsTakenAway(t *testing.T) {
	for stored, want := range map[string]float64{"83.76000000000001": 83.76, "171.54000000000002": 171.54, "26.659999999999997": 26.66, "1.5E2": 150, "2064.88064": 2064.88} {
		got, err := figure(stored, centDecimals)
		require.NoError(t, err)
		require.Equal(t, want, *got, stored)
	}
}

// One line that is not understood is named and costs no other.
func TestSlipsAreNotedAndTheRestIsRead(t *testing.T) {
	corn := corn2020("99001", "Alder")
	cases := []struct {
		rule   string
		line   []any
		reason string
	}{
		{"crop", with(corn, "E", "Dragon Fruit"), `crop "Dragon Fruit" is not a covered crop`},
		{"unit of another crop", with(corn, "F", "Pound"), `unit of corn is "Pound", want bushel`},
		{"no unit", with(corn, "F", nil), `unit of corn is "", want bushel`},
		{"practice", with(corn, "G", "Dryland"), `yield designation "Dryland" is none of All, Irrigated, Nonirrigated`},
		{"code of three digits", with(corn, "A", "991"), `county code "991" is not five digits`},
		{"no code", with(corn, "A", nil), "no county code"},
		{"sub-county", with(corn, "D", "North"), `sub-county "North" is not one letter`},
		{"two letters", with(with(corn, "A", "99001A"), "D", "B"), `county code "99001A" and sub-county "B" disagree`},
		{"words for a number", with(corn, "N", "see note"), `column "2026 Bench Mark (2020-24 olympic avg)": "see note" is not a number`},
		{"not finite", with(corn, "H", "Inf"), `column "2020 trend adjusted": "Inf" is not a number`},
		{"below zero", with(corn, "S", -3), `column "2026 Actual Yield": -3 is below zero`},
		{"footnote", []any{"1/ Subject to change."}, `county code "1/ Subject to change." is not five digits`},
		{"headings again", top2020(2026)[3], `county code "ST_Cty" is not five digits`},
	}
	for _, c := range cases {
		t.Run(c.rule, func(t *testing.T) {
			_, rows, notes, err := ReadSheet(build(t, testSheet{"a", append(top2020(2026), c.line, nil, corn2020("99003", "Birch"))}))
			require.NoError(t, err)
			require.Len(t, notes, 1)
			require.Equal(t, 5, notes[0].Line)
			require.Equal(t, c.reason, notes[0].Reason)
			require.NotEmpty(t, notes[0].Text)
			require.Len(t, rows, 1, "the next county is read")
			require.Equal(t, 7, rows[0].Line, "an empty line counts")
		})
	}
}

// The agency's tables have no county, crop and practice twice.
func TestRepeatedLines(t *testing.T) {
	corn := corn2020("99001", "Alder")
	irrigated := with(corn, "G", "Irrigated")
	_, rows, notes, err := ReadSheet(build(t, testSheet{"a", append(top2020(2026), corn, irrigated, corn, with(irrigated, "S", 171))}))
	require.NoError(t, err)
	require.Equal(t, []Note{
		{7, "99001, Nowhere, Alder, Corn, Bushel, All", "repeats line 5"},
		{8, "99001, Nowhere, Alder, Corn, Bushel, Irrigated", "differs from line 6, which is of the same county, crop and practice: neither is read"},
	}, notes)
	require.Len(t, rows, 1)
	require.Equal(t, farm.AllPractices, rows[0].Practice, "of two lines that contradict each other none is taken")
}

func TestTheSheetWithTheHeadingsIsRead(t *testing.T) {
	data := append(top2020(2026), corn2020("99001", "Alder"))
	source, notes, err := Read(build(t, testSheet{"Read me", lines{{"About this file"}}}, testSheet{"Table", data}, testSheet{"Old", data}))
	require.NoError(t, err)
	require.Contains(t, source.Name, "'Table'")
	require.Equal(t, []Note{{Text: "Old", Reason: "a second sheet with a county table: only 'Table' is read"}}, notes)

	// A list of counties may begin with ST_Cty too.
	_, rows, notes, err := ReadSheet(build(t, testSheet{"Counties", lines{{"ST_Cty", "County Name"}, {"99001", "Alder"}}}, testSheet{"Table", data}))
	require.NoError(t, err)
	require.Len(t, rows, 1)
	require.Equal(t, []Note{{Text: "Counties", Reason: `sheet not read: no column is headed "Crop Name"`}}, notes)
}
