package compare

import (
	"time"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/law"
)

// FirstPaymentDay returns the first day on which a commodity of a crop year can
// be paid; ok is false where the law has no marketing year for it.
func FirstPaymentDay(c crop.Commodity, y crop.CropYear) (day time.Time, ok bool) {
	start, err := law.Find("marketing_year_start", c, y)
	if err != nil {
		return day, false
	}
	month, err := law.Find("payment_first_month", "", y)
	if err != nil {
		return day, false
	}
	year := crop.MarketingYear{CropYear: y, StartMonth: time.Month(start.Number)}
	return program.FirstPaymentDay(year.End(), time.Month(month.Number)), true
}
