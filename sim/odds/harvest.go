package odds

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strings"
	"sync"
	"time"

	"fencerow/program/crop"
)

// Harvest is the day by which the harvest of a crop year has usually ended, and how
// sure that is.
type Harvest struct {
	Day    time.Time
	Status crop.Status
	Source string
}

//go:embed harvest.csv
var harvestFile string

const harvestHeader = "commodity,last_day,status,source,note"

var harvests = sync.OnceValue(func() map[crop.Commodity]Harvest {
	table, err := readHarvests(harvestFile)
	if err != nil {
		panic("sim/odds/harvest.csv: " + err.Error())
	}
	return table
})

// HarvestEnd returns when the harvest of a commodity has usually ended in the main
// States. The rows of harvest.csv are its sources; an unknown commodity panics.
func HarvestEnd(c crop.Commodity, y crop.CropYear) Harvest {
	h, ok := harvests()[c]
	if !ok {
		panic("sim/odds/harvest.csv: no row for " + string(c))
	}
	h.Day = time.Date(y, h.Day.Month(), h.Day.Day(), 0, 0, 0, 0, time.UTC)
	return h
}

// readHarvests refuses unknown columns and commodities, days that do not exist, unknown
// status words, a row without a source, and two rows of one commodity.
func readHarvests(text string) (map[crop.Commodity]Harvest, error) {
	reader := csv.NewReader(strings.NewReader(text))
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 || strings.Join(rows[0], ",") != harvestHeader {
		return nil, fmt.Errorf("the columns are not %q", harvestHeader)
	}
	table := map[crop.Commodity]Harvest{}
	for _, row := range rows[1:] {
		c, status := crop.Commodity(row[0]), crop.Status(row[2])
		day, err := time.Parse("01-02", row[1])
		if err != nil {
			return nil, fmt.Errorf("%s: last day %q is not month-day, like 11-24", c, row[1])
		}
		if _, twice := table[c]; twice || c.Index() < 0 || !status.Known() || row[3] == "" {
			return nil, fmt.Errorf("%q: needs one row for each commodity, with a status word and a source", row[0])
		}
		table[c] = Harvest{Day: day, Status: status, Source: row[3]}
	}
	return table, nil
}
