package limits

import (
	"fencerow/program/crop"
)

// CostOfLimit returns what payment limits cost all recipients together under some
// elections, USD on average after sequestration, 0 or more; means are those of the
// elections (ByRecipient). A recipient barred for income is paid nothing in both.
func (m Payments) CostOfLimit(elections []Election, means RecipientMeans) crop.Money {
	if !means.limitExceeded {
		return 0
	}
	var unlimited crop.Money
	worth := m.marginalWorth(m.Attribution.WithoutLimit())
	for _, e := range elections {
		unlimited += m.meanPaidAtWorth(e, worth)
	}
	return max(0, unlimited-means.Total)
}
