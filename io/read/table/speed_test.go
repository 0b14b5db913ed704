package table

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// fullYear is a table as large as the agency's largest, of invented counties.
const fullYear = 18_683 // rows of program year 2025

// BenchmarkRead reads a full year. See docs/performance.md for dated figures.
func BenchmarkRead(b *testing.B) {
	sheet := top2020(2026)
	crops := []string{"Corn", "Wheat", "Soybeans", "Oats", "Barley", "Grain Sorghum", "Flaxseed"}
	for i := range fullYear {
		line := corn2020(fmt.Sprintf("99%03d", i/len(crops)%1000), fmt.Sprintf("County %d", i/len(crops)))
		line = with(with(line, "E", crops[i%len(crops)]), "D", string(rune('A'+i/len(crops)/1000)))
		sheet = append(sheet, line)
	}
	path := build(b, testSheet{"a", sheet})
	for b.Loop() {
		source, notes, err := Read(path)
		require.NoError(b, err)
		require.Empty(b, notes)
		require.Len(b, source.Counties, (fullYear+len(crops)-1)/len(crops))
	}
}
