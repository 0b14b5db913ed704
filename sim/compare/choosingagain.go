package compare

import (
	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/odds"
)

// choosingAgain returns what choosing again for a crop year on the price of the year
// before adds to one choice; programs are what PLC and ARC-CO pay by scenario. It is nil
// where the law has no yearly choice, a figure is missing, that price is known or not
// projected, or scenarios are past years: those are too few to choose on.
func (r *run) choosingAgain(c crop.Commodity, y crop.CropYear, programs perAcre) *answer.ChoosingAgain {
	year, err := r.paths.Year(y)
	_, yearly := yearlyChange(y)
	if err != nil || !yearly || programs.plc == nil || programs.arc == nil || r.paths.Distinct > 0 {
		return nil
	}
	news, release := year.PricesBefore(c)
	defer release()
	if news == nil {
		return nil
	}
	plc, arc := year.Zeros(), year.Zeros()
	programs.plc.Fill(plc)
	programs.arc.Fill(arc)
	g := odds.ChoosingAgain(news, plc, arc, year.Size)
	year.Release(plc, arc)
	return &answer.ChoosingAgain{
		OneChoice: answer.Dollars(g.Fixed), Again: answer.Dollars(g.Chosen),
		Adds: answer.Mean{Mean: answer.Dollars(g.Adds), StandardError: answer.Dollars(g.StandardError)},
	}
}
