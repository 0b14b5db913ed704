package table

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fencerow/program/crop"
)

// A cell of TRUE in the agency's workbook is no figure of 1: its line is noted and not
// read, in county tables, price tables and tables of base.
func TestTruthIsNoFigure(t *testing.T) {
	county := append(top2020(2026), corn2020("99001", "Alder"), with(corn2020("99003", "Birch"), "R", true), with(corn2020("99005", "Cedar"), "A", false))
	_, rows, notes, err := ReadSheet(build(t, testSheet{"a", county}))
	require.NoError(t, err)
	require.Len(t, rows, 1)
	require.Len(t, notes, 2)
	require.Equal(t, 6, notes[0].Line)
	require.Contains(t, notes[0].Reason, `"TRUE" is not a number`)
	require.Contains(t, notes[1].Reason, `county code "FALSE" is not five digits`)

	base := lines{{"Program Year", "Admin State", "Admin County", "Crop Base Name", "Crop Base Acres"},
		{2023, "Nowhere", "Alder", "Corn", 1200.5}, {2023, "Nowhere", "Birch", "Corn", true}, {true, "Nowhere", "Cedar", "Corn", 90}}
	found, baseNotes, ok, err := ReadBase(build(t, testSheet{"a", base}))
	require.NoError(t, err)
	require.True(t, ok)
	require.Len(t, found, 1)
	require.Len(t, baseNotes, 2)
	require.Contains(t, baseNotes[0].Reason, "base acres are TRUE")
	require.Contains(t, baseNotes[1].Reason, `program year is "TRUE"`)
}

// Prices that are no prices: TRUE, not a number, below zero.
func TestWhatIsNoPrice(t *testing.T) {
	sheet := lines{{"TABLE 1. MARKET YEAR AVERAGE PRICES"}, {"January 31, 2025"}, {"Commodity", "Unit", "Final 2022/23 MYA Price", "Final 2023/24 MYA Price", "Final 2024/25 MYA Price"},
		{"Corn", "bushel", 6.54, true, "NaN"}, {"Soybeans", "bushel", -14.2, "Inf", 10.0}}
	found, err := ReadPrices(build(t, testSheet{"a", sheet}))
	require.NoError(t, err)
	var got []TablePrice
	for _, p := range found.Prices {
		got = append(got, TablePrice{p.Line, p.Commodity, p.CropYear, p.Price, p.Final})
	}
	require.Equal(t, []TablePrice{{4, crop.Corn, 2022, 6.54, true}, {5, crop.Soybeans, 2024, 10, true}}, got)
	require.Len(t, found.Notes, 4)
}
