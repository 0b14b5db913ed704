package program

import (
	"time"
)

// FirstPaymentDay returns the first day on which a crop year's payment of a
// commodity can be made: the first day of month that follows the end of its
// marketing year. It is a "not before": the agency pays as soon as practicable
// after it, and a shutdown or late price has moved it.
//
// Source: 7 U.S.C. 9016(e), 9017(f).
func FirstPaymentDay(marketingYearEnd time.Time, month time.Month) time.Time {
	day := time.Date(marketingYearEnd.Year(), month, 1, 0, 0, 0, 0, time.UTC)
	if !day.After(marketingYearEnd) {
		day = day.AddDate(1, 0, 0)
	}
	return day
}
