package limits

import (
	"fencerow/program/crop"
)

// CostOfLimit is what picks would bring to all recipients without any payment limit
// less what they bring, after sequestration. Who is barred for income stays so.
func (m Payments) CostOfLimit(picks []Election, reached RecipientMeans) crop.Money {
	if !reached.limitExceeded {
		return 0
	}
	worth, free := m.marginalWorth(m.Attribution.WithoutLimit()), 0.0
	for _, k := range picks {
		free += m.meanPaidAtWorth(k, worth)
	}
	return max(0, free-reached.Total)
}
