package record

import (
	"fmt"
	"slices"

	"fencerow/io/read/countyname"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// CountyFinder returns the code of a county from its State and name as printed.
type CountyFinder func(state, county string) (code string, fault *farm.Fault)

// FindCounty finds counties in the agencies' tables.
func FindCounty(state, county string) (string, *farm.Fault) {
	digits := countyname.State(state)
	if digits == "" {
		return "", &farm.Fault{Reason: fmt.Sprintf("%q is not the name of a State", state), Hint: "write name and State, or the five digits of the county"}
	}
	return countyname.FindIn("county", digits, county)
}

// maker makes a farm of a record.
type maker struct {
	*Record
	find  CountyFinder
	made  farm.Farm
	asked []Note
	named map[string]string // counties found, by State and name
}

func (m *maker) ask(at Place, format string, values ...any) {
	note := Note{at, fmt.Sprintf(format, values...)}
	if !slices.Contains(m.asked, note) {
		m.asked = append(m.asked, note)
	}
}

// madeFarm returns the farm that a record describes, and what has to be asked before it is
// whole: what the record asks, counties that are not found (which stay as printed), and
// missing yields. Base lies where its tract lies. What is not known is left out.
func (r *Record) madeFarm(find CountyFinder) (farm.Farm, []Note) {
	m := maker{Record: r, find: find, named: map[string]string{}}
	m.asked = slices.Clone(r.Asked)
	m.made.Number = r.Farm.Text
	m.made.County = m.county(r.State, r.County)
	if f := r.Landed("farmland"); f.Known {
		m.made.TotalAcres = &f.Number
	}
	if f := r.Landed("cropland"); f.Known {
		m.made.Cropland = &f.Number
	}
	m.made.Idle20092017 = r.Idle
	m.made.Record = m.elected()
	for _, c := range r.Crops {
		m.crop(c)
	}
	if len(r.Crops) == 0 {
		m.withoutFarmTable()
	}
	if len(m.made.Bases) == 0 && m.made.Unassigned == 0 {
		m.ask(r.Farm.Place, "no base acres are in the text of farm %s: give each crop with base acres and PLC yield", r.Farm.Text)
	}
	return m.made, m.asked
}

// county returns the code of a county, or the county as printed where it is not found.
func (m *maker) county(state, county Text) string {
	if county.Text == "" {
		return ""
	}
	printed := county.Text
	if state.Text != "" {
		printed += ", " + state.Text
	}
	if code, known := m.named[printed]; known {
		return code
	}
	code, fault := m.find(state.Text, county.Text)
	if fault != nil {
		code = printed
		m.ask(county.Place, "the county %s is not found (%s): give its name and State, or its five digits", printed, fault.Reason)
	}
	m.named[printed] = code
	return code
}

// elected are the last elections by commodity. A commodity in two lists has none, and
// a farm with crops under ARC-IC and under others has none at all.
func (m *maker) elected() map[crop.Commodity]farm.Program {
	all := map[crop.Commodity]farm.Program{}
	var twice []crop.Commodity
	individual := 0
	for _, e := range m.Elections {
		if e.Commodity == "" {
			continue
		}
		if before, known := all[e.Commodity]; known && before != e.Program {
			m.ask(e.Place, "%s stands under %s and under %s: give its last election", e.Code, before, e.Program)
			twice = append(twice, e.Commodity)
		}
		all[e.Commodity] = e.Program
	}
	for _, p := range all {
		if p == farm.ARCIC {
			individual++
		}
	}
	if individual > 0 && individual < len(all) {
		m.ask(m.Elections[0].Place, "the lists have ARC-IC beside other elections: give the last election of the farm")
		return nil
	}
	for _, c := range twice {
		delete(all, c)
	}
	return all
}

// crop adds the base of one crop of the farm's table: by tract where the tracts have it
// all, else as the farm has it.
func (m *maker) crop(c *Crop) {
	rows := m.ofTracts(c.key())
	switch {
	case c.Unassigned:
		m.made.Unassigned += c.Base.Number
	case c.Commodity == "" || !c.Base.Known || c.Base.Number == 0:
	case len(rows) > 0 && !(checker{m.Record}).differ(sum(rows, baseOf), c.Base.Number, len(rows)):
		m.byTract(c.key(), c.HIP)
	default:
		if len(rows) > 0 {
			m.ask(c.Place, "base of %s by tract is not the farm's, so it is taken from the farm, without tracts. Paste all pages, or give it by tract", c.Name)
		}
		m.add(c, c.HIP, "", m.onlyCounty())
	}
}

// onlyCounty is the county of all tracts, "" where it is the farm's. With tracts in
// several, or without their county, it is asked.
func (m *maker) onlyCounty() string {
	found := []string{}
	for _, t := range m.Parts {
		if county := m.county(t.State, t.County); county != "" && !slices.Contains(found, county) {
			found = append(found, county)
		}
	}
	if len(found) == 1 {
		return m.unlessFarms(found[0])
	}
	m.ask(m.Record.Farm.Place, "the tracts do not say in which county the base of farm %s lies, so that of the office is taken. Give another if it lies there", m.made.Number)
	return ""
}

func (m *maker) unlessFarms(county string) string {
	if county == m.made.County {
		return ""
	}
	return county
}

// byTract adds the rows of a crop on all tracts.
func (m *maker) byTract(key string, hip Figure) {
	for _, t := range m.Parts {
		for _, c := range t.Crops {
			if c.key() != key || !c.Base.Known || c.Base.Number == 0 {
				continue
			}
			county := m.county(t.State, t.County)
			if county == "" {
				m.ask(t.Number.Place, "the county of tract %s is not on the print, so that of the office is taken. Give another if it lies there", t.Number.Text)
			}
			m.add(c, hip, t.Number.Text, m.unlessFarms(county))
		}
	}
}

// withoutFarmTable adds the base of all tracts where the farm has no table.
func (m *maker) withoutFarmTable() {
	var done []string
	for _, t := range m.Parts {
		for _, c := range t.Crops {
			switch {
			case c.Unassigned:
				m.made.Unassigned += c.Base.Number
			case c.Commodity == "":
				m.ask(c.Place, "the crop %q is not known: say which it is", c.Name)
			case !slices.Contains(done, c.key()):
				done = append(done, c.key())
				m.byTract(c.key(), Figure{})
			}
		}
	}
}

// percent makes a share of a percentage.
const percent = 100

func (m *maker) add(c *Crop, hip Figure, tract, county string) {
	b := farm.Base{Commodity: c.Commodity, BaseAcres: c.Base.Number, Tract: tract, County: county, CRPReduction: c.Reduction.Number}
	if c.Yield.Known && c.Yield.Number > 0 {
		b.PaymentYield = &c.Yield.Number
	} else {
		where := ""
		if tract != "" {
			where = " on tract " + tract
		}
		m.ask(c.Place, "the PLC yield of %s%s is not on the print: ask the county office", c.Name, where)
	}
	if hip.Known {
		share := hip.Number / percent
		b.IrrigatedShare = &share
	}
	m.made.Bases = append(m.made.Bases, b)
}
