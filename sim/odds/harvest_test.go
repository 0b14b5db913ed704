package odds

import (
	"testing"
	"time"

	"fencerow/program/crop"
)

// Every commodity has a day within its crop year, before the year's first report of
// final county yields.
func TestEveryCommodityHasAHarvestEnd(t *testing.T) {
	for _, c := range crop.Commodities() {
		h := HarvestEnd(c, 2026)
		if h.Day.Year() != 2026 || h.Day.Month() < time.August || h.Source == "" || !h.Status.Known() {
			t.Errorf("%s: %+v", c, h)
		}
	}
	if n := len(harvests()); n != len(crop.Commodities()) {
		t.Errorf("%d rows for %d commodities", n, len(crop.Commodities()))
	}
}

func TestHarvestFileMistakesAreRefused(t *testing.T) {
	const row = "corn,11-24,computed,NASS,\n"
	if _, err := readHarvests(harvestHeader + "\n" + row); err != nil {
		t.Fatalf("a good table is refused: %v", err)
	}
	for reason, text := range map[string]string{
		"empty file": "", "unknown column": harvestHeader + ",extra\n", "no day": harvestHeader + "\ncorn,November,computed,NASS,\n",
		"unknown commodity": harvestHeader + "\nkale,11-24,computed,NASS,\n", "unknown status": harvestHeader + "\ncorn,11-24,sure,NASS,\n",
		"no source": harvestHeader + "\ncorn,11-24,computed,,\n", "the same row twice": harvestHeader + "\n" + row + row,
	} {
		if _, err := readHarvests(text); err == nil {
			t.Errorf("%s: accepted", reason)
		}
	}
}
