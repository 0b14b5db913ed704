package source

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/read/countyname"
	"fencerow/io/read/record"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// openOf lists what one record leaves open, in the order of the print.
func (r *Recorded) openOf(one *record.Record) {
	r.openCounty(one.Farm, one.State, one.County)
	for _, t := range one.Parts {
		if t.County.Text != "" {
			r.openCounty(t.Number, t.State, t.County)
		}
	}
	r.openEligibility(one)
	var names, codes []string
	rows := allCrops(one)
	for _, c := range rows {
		if c.Commodity == "" && !c.Unassigned && !slices.Contains(names, c.Name) {
			names = append(names, c.Name)
			r.openCrop(one, c)
		}
	}
	for _, e := range one.Elections {
		if e.Commodity == "" && !slices.Contains(codes, e.Code) {
			codes = append(codes, e.Code)
			r.openCode(one, e)
		}
	}
	for _, c := range rows {
		if !c.Base.Known {
			r.openFigure(one, "base_acres", "Base acres of "+c.Name, &c.Base, farm.CheckBaseAcres)
		}
	}
	r.openYields(one)
	r.openNotice(one)
}

// openYields asks for PLC yields that are not printed: of the tracts, where they have
// tables, else of the farm.
func (r *Recorded) openYields(one *record.Record) {
	byTract := false
	for _, t := range one.Parts {
		byTract = byTract || t.HasCrops
		for _, c := range t.Crops {
			r.openYield(one, " on tract "+t.Number.Text, c)
		}
	}
	for _, c := range one.Crops {
		if !byTract {
			r.openYield(one, "", c)
		}
	}
}

func (r *Recorded) openYield(one *record.Record, where string, c *record.Crop) {
	if c.Commodity == "" || c.Yield.Known && c.Yield.Number > 0 || c.Base.Known && c.Base.Number == 0 {
		return
	}
	c.Yield.Place = c.Place
	r.openFigure(one, "payment_yield", "PLC yield of "+c.Name+where, &c.Yield, func(what string, x float64) *farm.Fault {
		return farm.CheckYield(what, c.Commodity, farm.Usual, x)
	})
}

// allCrops are the rows of all tables of a record.
func allCrops(one *record.Record) []*record.Crop {
	all := slices.Clone(one.Crops)
	for _, t := range one.Parts {
		all = append(all, t.Crops...)
	}
	return all
}

// ask adds a question. words say what is asked, at where it stands.
func (r *Recorded) ask(key, words, help string, at record.Place, maySkip bool, take func(string) (string, *farm.Fault)) {
	if at.Line > 0 {
		words += fmt.Sprintf(" (%s)", at)
	}
	r.open = append(r.open, openQuestion{AskedQuestion{Key: key, Words: words, Help: help, MaySkip: maySkip}, take})
}

// openNotice asks whether a record is older than the notice of new base. A print made, or
// of a crop year, before new base counts is offered as older: no notice had come.
func (r *Recorded) openNotice(one *record.Record) {
	first := law.Rows("new_base_history_first")[0].First
	older := one.CropYear.Known && one.CropYear.Number < float64(first) || !one.PreparedOn.IsZero() && one.PreparedOn.Year() < first
	words := fmt.Sprintf("Was the record of farm %s printed before the %d base notice came? y or n", one.Farm.Text, first)
	at := one.Prepared.Place
	if one.Prepared.Text != "" {
		words += ", prepared " + strings.Join(strings.Fields(one.Prepared.Text), " ")
	}
	if !older {
		words += " (Enter: not known)"
	}
	r.ask("record_before_notice", words, noticeHelp, at, true, func(text string) (string, *farm.Fault) {
		before := older
		if text == "" && !older {
			return "", nil
		}
		if text != "" {
			if fault := putTruth(&before, text); fault != nil {
				return "", fault
			}
		}
		r.before[one] = before
		return "", nil
	})
	if older {
		r.open[len(r.open)-1].Offered = "y"
	}
}

// openCounty asks for a county that is not found, once for each name.
func (r *Recorded) openCounty(of, state, county record.Text) {
	printed := countyPrinted(state.Text, county.Text)
	if _, asked := r.counties[printed]; asked {
		return
	}
	if _, fault := r.find(state.Text, county.Text); fault == nil && county.Text != "" {
		return
	}
	r.counties[printed] = ""
	words, at := fmt.Sprintf("County and State printed as %s", printed), county.Place
	if printed == "" {
		words, at = fmt.Sprintf("County and State of the office of farm %s", of.Text), of.Place
	}
	r.ask("county", words, "No county of that name is known. Give its name with its State, or its five digits.", at, false, func(text string) (string, *farm.Fault) {
		code, fault := countyname.Find("the county", text)
		if fault != nil {
			return "", fault
		}
		r.counties[printed] = code
		return nameOf(code), nil
	})
}

// openEligibility asks what an eligibility in other words, or none, means.
func (r *Recorded) openEligibility(one *record.Record) {
	if !one.IdleOpen {
		return
	}
	at := one.Eligibility.Place
	if at.Line == 0 {
		at = one.Farm.Place
	}
	words := fmt.Sprintf("Was all cropland of farm %s grass, idle or fallow in 2009 to 2017? yes or no (Enter: no)", one.Farm.Text)
	r.ask("idle_2009_2017", words, "The print has it as ARCPLC G/I/F Eligibility. Such a farm is paid nothing for 2019 to 2031.", at, true, func(text string) (string, *farm.Fault) {
		idle := false
		if text != "" {
			if fault := putTruth(&idle, text); fault != nil {
				return "", fault
			}
		}
		one.Idle = idle
		one.Settle(at)
		return "", nil
	})
}

// openCrop asks which crop a name means that is not known.
func (r *Recorded) openCrop(one *record.Record, c *record.Crop) {
	words := fmt.Sprintf("Crop printed as %q (Enter: leave it out)", c.Name)
	r.ask("commodity", words, "Its name as PLC and ARC know it, such as corn or long grain rice.", c.Place, true, func(text string) (string, *farm.Fault) {
		meant, fault := commodityOf(text)
		if fault != nil {
			return "", fault
		}
		for _, row := range allCrops(one) {
			if row.Name == c.Name {
				row.Commodity = meant
			}
		}
		if meant != "" {
			one.Settle(c.Place)
		}
		return meant.Name(), nil
	})
}

// openCode asks which crop an election code means.
func (r *Recorded) openCode(one *record.Record, e record.Election) {
	words := fmt.Sprintf("Crop of the election code %q under %s (Enter: leave it out)", e.Code, e.Program)
	r.ask("election_on_record", words, "The crop of the farm whose last election stands there.", e.Place, true, func(text string) (string, *farm.Fault) {
		meant, fault := commodityOf(text)
		if fault != nil {
			return "", fault
		}
		for i := range one.Elections {
			if one.Elections[i].Code == e.Code {
				one.Elections[i].Commodity = meant
			}
		}
		if meant != "" {
			one.Settle(e.Place)
		}
		return meant.Name(), nil
	})
}

// openFigure asks for a figure that is blank, or printed as no number.
func (r *Recorded) openFigure(one *record.Record, key, what string, f *record.Figure, check func(string, float64) *farm.Fault) {
	words := what
	if f.Text != "" {
		words += fmt.Sprintf(", printed as %q", f.Text)
	}
	r.ask(key, words+" (Enter: not known)", "Check it against the print, or ask the county office.", f.Place, true, func(text string) (string, *farm.Fault) {
		if text == "" {
			return "", nil
		}
		x, fault := number("the figure", text)
		if fault == nil {
			fault = check("the figure", x)
		}
		if fault != nil {
			return "", fault
		}
		f.Number, f.Known = x, true
		one.Settle(f.Place)
		return "", nil
	})
}
