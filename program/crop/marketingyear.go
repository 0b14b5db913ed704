package crop

import (
	"fmt"
	"time"
)

// MarketingYear is the twelve months over which the national price of one crop
// is averaged. It begins in the calendar year of harvest (7 CFR 1412.3).
type MarketingYear struct {
	CropYear   CropYear
	StartMonth time.Month
}

// Start returns the first day.
func (m MarketingYear) Start() time.Time {
	return time.Date(m.CropYear, m.StartMonth, 1, 0, 0, 0, 0, time.UTC)
}

// End returns the last day.
func (m MarketingYear) End() time.Time { return m.Start().AddDate(1, 0, -1) }

// String returns the year as the agency writes it: "2026/27".
func (m MarketingYear) String() string {
	return fmt.Sprintf("%d/%02d", m.CropYear, (m.CropYear+1)%100)
}
