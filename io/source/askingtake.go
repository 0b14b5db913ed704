package source

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fencerow/io/read/builtin"
	"fencerow/io/read/countyname"
	"fencerow/io/read/spelling"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// take puts an answer where it belongs. understood is what was read, where the answer
// says it in other words.
func (a *Asking) take(key questionKey, text string) (understood string, fault *farm.Fault) {
	switch key {
	case askFarm:
		return "", a.takeFarm(text)
	case askCounty:
		return a.takeCounty(text)
	case askCommodity:
		return a.takeCommodity(text)
	case askBaseAcres:
		a.base().acres, fault = baseAcresOf(text)
		return "", fault
	case askPaymentYield:
		a.base().yield, fault = paymentYieldOf(text, a.base().commodity)
		return "", fault
	case askIrrigatedShare:
		return percentMeant(text, "the irrigated percentage", func(s crop.Share) { a.base().irrigated = &s })
	case askElection:
		return a.takeElection(text)
	}
	return a.takeAfterBases(key, text)
}

// takeAfterBases takes what is asked of a farm after its bases.
func (a *Asking) takeAfterBases(key questionKey, text string) (understood string, fault *farm.Fault) {
	switch key {
	case askBeforeNotice:
		return "", a.takeBeforeNotice(text)
	case askNoticeAcres:
		return "", a.takeNoticeAcres(text)
	case askNoticeYield:
		base := a.noticed()
		yield, fault := paymentYieldOf(text, base.commodity)
		if fault == nil {
			base.notice.PaymentYield = yield
		}
		return "", fault
	}
	if text == "" {
		text = a.words(askShare).Offered
	}
	return percentMeant(text, "the share", func(s crop.Share) { a.farm().share = s })
}

// takeFarm begins a farm; nothing typed ends the list, or takes the number offered.
func (a *Asking) takeFarm(text string) *farm.Fault {
	if text == "" && len(a.farms) > 0 {
		return nil
	}
	if text == "" {
		text = firstNumber
	}
	if strings.ContainsAny(text, "\"\\\t") {
		return &farm.Fault{Reason: fmt.Sprintf("the farm number is %q", text), Hint: "write the number as the farm record prints it"}
	}
	if reason, hint := spelling.NameFault(text); reason != "" {
		return &farm.Fault{Reason: "the farm number " + reason, Hint: hint}
	}
	a.farms = append(a.farms, askedFarm{number: text, share: 1})
	return nil
}

// takeCounty finds the county by code or name.
func (a *Asking) takeCounty(text string) (string, *farm.Fault) {
	code, fault := countyname.Find("the county", text)
	if text == "" {
		code, fault = a.farms[len(a.farms)-2].county, nil
	}
	if fault != nil {
		return "", fault
	}
	f := a.farm()
	for _, other := range a.farms[:len(a.farms)-1] {
		if other.number == f.number && other.county == code {
			return "", &farm.Fault{Reason: fmt.Sprintf("farm %s of county %s was asked about already", f.number, code), Hint: "give another county, or go back and give another farm number"}
		}
	}
	f.county, f.countyWords = code, nameOf(code)
	if f.countyWords == text {
		return "", nil
	}
	return f.countyWords, nil
}

// nameOf returns a county's name with its State, as the built-in tables have it, and its
// code; the code alone where they do not have it.
func nameOf(code string) string {
	sources, err := builtin.Sources(code)
	if name := farm.CountyBook(sources).Name(code); err == nil && name != "" {
		return fmt.Sprintf("%s, %s (%s)", name, crop.StateNames[code[:2]], code)
	}
	return code
}

// takeCommodity begins a base; nothing typed ends the list.
func (a *Asking) takeCommodity(text string) (string, *farm.Fault) {
	if text == "" {
		return "", nil
	}
	c, fault := commodityMeant(text)
	if fault != nil {
		return "", fault
	}
	f := a.farm()
	if slices.ContainsFunc(f.bases, func(b askedBase) bool { return b.commodity == c }) {
		return "", &farm.Fault{Reason: fmt.Sprintf("%s of farm %s was asked about already", c.Name(), f.number), Hint: "give the acres of all tracts together, or name another crop"}
	}
	f.bases = append(f.bases, askedBase{commodity: c})
	if strings.EqualFold(text, c.Name()) {
		return "", nil
	}
	return c.Name(), nil
}

// commodityMeant reads a commodity in any agency spelling, or by its first letters where
// one alone begins with them.
func commodityMeant(text string) (crop.Commodity, *farm.Fault) {
	if c, ok := crop.ParseCommodity(text); ok {
		return c, nil
	}
	var begin []crop.Commodity
	var names []string
	for _, c := range crop.Commodities() {
		if strings.HasPrefix(spelling.Fold(c.Name()), spelling.Fold(text)) && spelling.Fold(text) != "" {
			begin, names = append(begin, c), append(names, c.Name())
		}
	}
	switch len(begin) {
	case 1:
		return begin[0], nil
	case 0:
		return "", &farm.Fault{Reason: fmt.Sprintf("%q is no covered crop", text), Hint: "such as corn, soybeans, wheat, grain sorghum, peanuts, seed cotton, long grain rice"}
	}
	return "", &farm.Fault{Reason: fmt.Sprintf("%q may be %d crops", text, len(begin)), Hint: "write more of it: " + strings.Join(names, ", ")}
}

// baseAcresOf reads base acres.
func baseAcresOf(text string) (crop.Acres, *farm.Fault) {
	acres, fault := number("base acres", text)
	if fault == nil {
		fault = farm.CheckBaseAcres("base acres", acres)
	}
	return acres, fault
}

// paymentYieldOf reads a PLC yield of a commodity; nil where nothing is typed or it cannot
// be one.
func paymentYieldOf(text string, c crop.Commodity) (*crop.Yield, *farm.Fault) {
	if text == "" {
		return nil, nil
	}
	yield, fault := number("the PLC yield", text)
	if fault == nil {
		fault = farm.CheckYield("the PLC yield", c, farm.Usual, yield)
	}
	if fault != nil {
		return nil, fault
	}
	return &yield, nil
}

// takeBeforeNotice reads yes or no; nothing typed leaves it unknown.
func (a *Asking) takeBeforeNotice(text string) *farm.Fault {
	if text == "" {
		return nil
	}
	before, ok := spelling.Truth(text)
	if !ok {
		return &farm.Fault{Reason: fmt.Sprintf("%q is neither yes nor no", text), Hint: "write y or n"}
	}
	a.farm().beforeNotice = &before
	return nil
}

// takeNoticeAcres reads the base acres of the notice; nothing typed leaves them unknown.
func (a *Asking) takeNoticeAcres(text string) *farm.Fault {
	f := a.farm()
	f.noticed++
	if text == "" {
		return nil
	}
	acres, fault := baseAcresOf(text)
	f.bases[f.noticed-1].notice = &farm.NoticeBase{BaseAcres: acres}
	return fault
}

// takeElection reads a program, or its first letter.
func (a *Asking) takeElection(text string) (string, *farm.Fault) {
	p, fault := programMeant(text)
	if fault != nil {
		return "", fault
	}
	f := a.farm()
	for _, b := range f.bases[:len(f.bases)-1] {
		if b.election != "" && p != "" && (b.election == farm.ARCIC) != (p == farm.ARCIC) {
			return "", &farm.Fault{Reason: fmt.Sprintf("%s of this farm has %s", b.commodity.Name(), b.election), Hint: "ARC-IC covers all crops of a farm or none: go back if the other is wrong"}
		}
	}
	a.base().election = p
	if p == "" || strings.EqualFold(text, string(p)) {
		return "", nil
	}
	return string(p), nil
}

// programMeant reads a program, or its first letter; nothing typed is none.
func programMeant(text string) (farm.Program, *farm.Fault) {
	letters := map[string]farm.Program{"": "", "p": farm.PLC, "a": farm.ARCCO, "i": farm.ARCIC}
	p, known := letters[strings.ToLower(text)]
	if !known {
		p, known = spelling.Program(text)
	}
	if !known {
		return "", &farm.Fault{Reason: fmt.Sprintf("%q is no program", text), Hint: "write p for PLC, a for ARC-CO or i for ARC-IC"}
	}
	return p, nil
}

// percentMeant reads a percentage as the farm record prints it, 35, or one with its sign,
// or a part of one with a point, 0.35. Nothing typed leaves it unknown.
func percentMeant(text, what string, put func(crop.Share)) (string, *farm.Fault) {
	if text == "" {
		return "", nil
	}
	share, fault := spelling.Share(text, spelling.Habits{})
	if fault != nil {
		return "", saidOf(what, text, fault)
	}
	if !strings.Contains(text, "%") {
		switch {
		case share == 1:
			return "", &farm.Fault{Reason: what + " is 1, which may be all or one percent", Hint: "write 100% or 1%"}
		case share > 1 || !strings.Contains(text, "."):
			share /= 100
		}
	}
	if fault := farm.CheckShare(what, share); fault != nil {
		return "", &farm.Fault{Reason: fmt.Sprintf("%s is %s", what, text), Hint: "write a percentage from 0 to 100"}
	}
	put(share)
	return percentOf(share), nil
}

// number reads a number as people write it.
func number(what, text string) (float64, *farm.Fault) {
	x, fault := spelling.Number(text, spelling.Habits{})
	if fault != nil {
		return 0, saidOf(what, text, fault)
	}
	return x, nil
}

// saidOf makes a fault of spelling one of an answer.
func saidOf(what, text string, fault *farm.Fault) *farm.Fault {
	return &farm.Fault{Reason: fmt.Sprintf("%s is %q, %s", what, text, fault.Reason), Hint: fault.Hint}
}

// plainNumber writes a figure without power of ten, and without the noise of a division.
func plainNumber(x float64) string {
	const decimals = 6
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}
