package site

import (
	"strings"
	"testing"
	"time"
)

// The first page says when its prices and tables are too old, and is quiet when they are not.
func TestOldPricesAndTablesAreSaid(t *testing.T) {
	s := tested()
	s.Market = []byte("format: fencerow/market/1\nas_of: 2026-11-20\nsource: invented\noutlook: {corn: {2026: {price: 4.20}}}\n")
	if shown := s.page(t, startPath); strings.Contains(shown, "days old") || !strings.Contains(shown, "prices of November 20, 2026") {
		t.Errorf("five days are called old, or no date stands there")
	}
	s.Today = time.Date(2027, 1, 5, 0, 0, 0, 0, time.UTC) // 46 days later
	if shown := s.page(t, startPath); !strings.Contains(shown, "46 days old") {
		t.Errorf("46 days are not called old")
	}
	s.Today = time.Date(2031, 3, 1, 0, 0, 0, 0, time.UTC)
	if shown := s.page(t, startPath); !strings.Contains(shown, "table of 2031 is usually out") {
		t.Errorf("an old county table is not said")
	}
}
