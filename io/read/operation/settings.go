package operation

import (
	"fencerow/io/read/document"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// readSettings reads what replaces a figure of the law or a default.
func (r *reader) readSettings(v document.Node) {
	s := &r.operation.Settings
	span := farm.ProgramYears()
	r.Fields(v, "settings",
		document.May("payment_limit", func(v document.Node) {
			s.PaymentLimit = document.ByCropYear(r.Reader, v, "payment_limit", span, r.money)
		}),
		document.May("sequestration", func(v document.Node) {
			s.Sequestration = document.ByCropYear(r.Reader, v, "sequestration", span, func(v document.Node, what string, _ crop.CropYear) (crop.Share, bool) {
				return r.share(v, what)
			})
		}),
		document.May("discount_rate", func(v document.Node) { s.DiscountRate, _ = r.share(v, "discount_rate") }),
		document.May("close_margin", func(v document.Node) {
			if margin, ok := r.money(v, "close_margin", 0); ok {
				s.CloseMargin = &margin
			}
		}))
}
