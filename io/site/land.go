package site

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fencerow/io/read/countyname"
	"fencerow/io/show/wording"
	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// spareLines are the empty lines that a farm offers for its record.
const spareLines = 4

// land asks for the farms as their records have them.
func (s *Site) land(d draft, r Request) Response {
	d.files, d.demo = nil, ""
	switch r.Form.Get("do") {
	case "farm":
		d.farms = append(d.farms, typedFarm{county: lastCounty(d)})
	case "next":
		if wrong := s.wrongLand(&d); len(wrong) == 0 {
			return s.shares(d, Request{Path: sharesPath})
		} else {
			return s.landPage(d, wrong, false)
		}
	}
	return s.landPage(d, nil, r.Form.Get("do") == "lines")
}

// isLand reports whether a field is of the page of the land: f1.county, f1.b2.acres.
func isLand(name string) bool {
	first, _, _ := strings.Cut(name, ".")
	return number(first, "f") > 0 && !isShares(name)
}

func lastCounty(d draft) string {
	if len(d.farms) == 0 {
		return ""
	}
	return d.farms[len(d.farms)-1].county
}

// wrongLand returns what keeps the land from an answer.
func (s *Site) wrongLand(d *draft) faults {
	if len(d.farms) == 0 {
		d.farms = []typedFarm{{}}
	}
	wrong := faults{}
	for i, f := range d.farms {
		name := fmt.Sprintf("f%d.", i+1)
		if len(f.bases) == 0 {
			wrong.add(name+"b1.crop", farm.Fault{Reason: "no crop is given", Hint: "copy the lines of the farm record: crop, base acres, PLC yield"})
		}
		if f.county == "" {
			wrong.add(name+"county", farm.Fault{Reason: "the county is not given", Hint: "give its name and State, or its five digits"})
			continue
		}
		code, fault := countyname.Find("the county", f.county)
		if fault != nil {
			wrong.add(name+"county", *fault)
		}
		for j, b := range f.bases {
			line := fmt.Sprintf("%sb%d.", name, j+1)
			if b.crop == "" {
				wrong.add(line+"crop", farm.Fault{Reason: "the crop is not chosen", Hint: "choose it in the list"})
			}
			if b.irrigated == "" && source.TwoPractices(code, crop.Commodity(b.crop)) && !d.asked(line+"irrigated") {
				wrong.add(line+"irrigated", farm.Fault{Reason: "this county has two yields of " + crop.Commodity(b.crop).Name() + ", irrigated and not", Hint: "copy HIP from the farm record; where it is blank, press Next again: 0 is taken, and the sheet says so"})
			}
		}
	}
	if a, err := s.ask(*d); err == nil {
		for name, all := range a.faults {
			if len(wrong[name]) == 0 {
				wrong[name] = all
			}
		}
	}
	for name, all := range s.unlikely(*d) {
		wrong[name] = append(wrong[name], all...)
	}
	return wrong
}

// What is asked about once: PLC yields outside of these parts of the county's benchmark
// yield, and lines of more base acres. Judgements: slips of a decimal point are outside.
const leastPart, mostPart, mostAcres = 0.4, 1.6, 3000

// unlikely asks once about figures that look like slips.
func (s *Site) unlikely(d draft) faults {
	wrong := faults{}
	c, err := s.compare(d)
	if err != nil || len(c.faults) > 0 {
		return wrong
	}
	for i, of := range c.found.CropYears[0].Farms {
		for j, b := range d.farms[i].bases {
			line := fmt.Sprintf("f%d.b%d.", i+1, j+1)
			for _, part := range of.Commodities {
				if string(part.Commodity) != b.crop || len(counted(part)) == 0 {
					continue
				}
				usual := counted(part)[0].BenchmarkYield
				if y := part.PaymentYield; y != nil && usual != nil && (*y < leastPart**usual || *y > mostPart**usual) && !d.asked(line+"yield") {
					wrong.add(line+"yield", farm.Fault{Reason: fmt.Sprintf("a PLC yield of %s is far from what the county makes, about %s", b.yield, wording.YieldText(part.Commodity, *usual)), Hint: "look at the record, or press Next again if it is right"})
				}
				if part.BaseAcres > mostAcres && !d.asked(line+"acres") {
					wrong.add(line+"acres", farm.Fault{Reason: fmt.Sprintf("%s base acres are many for one crop of one farm", b.acres), Hint: "look at the record, or press Next again if it is right"})
				}
			}
		}
	}
	return wrong
}

// asked reports whether a question about a field was asked before: it is asked once.
func (d *draft) asked(field string) bool { return d.known["s.asked."+field] != "" }

// askedOnce notes of which fields something was asked.
func (f *frame) askedOnce(wrong faults) {
	for _, name := range sortedKeys(wrong) {
		f.put(`<input type="hidden" name="s.asked.%s" value="yes">`+"\n", name)
	}
}

func (s *Site) landPage(d draft, wrong faults, more bool) Response {
	if len(d.farms) == 0 {
		d.farms = []typedFarm{{}}
	}
	f := newFrame("What does the farm record say?")
	f.step = landPath
	f.summary(wrong)
	f.WriteString("<p>Copy the lines of your FSA farm record, in its order. County, crop, base acres and PLC yield give a first answer.</p>\n")
	f.form(landPath, "page")
	for i := range d.farms {
		f.landFarm(d, i, wrong, more)
	}
	f.WriteString(`<p class="buttons"><button name="do" value="next">Next: who shares</button> <button name="do" value="lines" class="second">More lines</button> <button name="do" value="farm" class="second">Another farm</button></p>` + "\n")
	f.hidden(d, isLand)
	f.askedOnce(wrong)
	f.WriteString("</form>\n")
	return f.response(200)
}

// landFarm asks for one farm.
func (f *frame) landFarm(d draft, i int, wrong faults, more bool) {
	typed, name := d.farms[i], fmt.Sprintf("f%d.", i+1)
	f.put("<fieldset>\n<legend>Farm %s</legend>\n", fmt.Sprint(i+1))
	f.WriteString(`<div class="fields">`)
	f.text(input{name: name + "county", label: "County and State", value: typed.county, list: "counties", help: "As on the record: Story, Iowa. Five digits work too."}, wrong)
	f.text(input{name: name + "number", label: "Farm number", value: typed.number, help: "After FARM at the top of the record. Any number will do.", short: true}, wrong)
	f.WriteString("</div>\n")
	lines := enlarged(slices.Clone(typed.bases), max(spareLines, len(typed.bases)+1))
	if more {
		lines = enlarged(lines, len(typed.bases)+spareLines)
	}
	split := f.split(typed, name, wrong)
	f.WriteString(`<table class="record"><caption>Crop data of the record</caption>` + "\n<thead><tr><th scope=\"col\">Crop</th><th scope=\"col\">Base acres</th><th scope=\"col\">PLC yield</th>")
	if split {
		f.WriteString(`<th scope="col">HIP, %</th>`)
	}
	f.WriteString("<th scope=\"col\">Last elected</th></tr></thead>\n<tbody>\n")
	for j, b := range lines {
		f.landLine(fmt.Sprintf("%sb%d.", name, j+1), j+1, b, split, wrong)
	}
	f.WriteString("</tbody></table>\n</fieldset>\n")
}

// split reports whether the record's irrigated percentage matters to a farm.
func (f *frame) split(typed typedFarm, name string, wrong faults) bool {
	code, fault := countyname.Find("", typed.county)
	for _, b := range typed.bases {
		if b.irrigated != "" || fault == nil && b.crop != "" && source.TwoPractices(code, crop.Commodity(b.crop)) {
			return true
		}
	}
	return slices.ContainsFunc(slices.Collect(maps.Keys(wrong)), func(field string) bool {
		return strings.HasPrefix(field, name) && strings.HasSuffix(field, "irrigated")
	})
}

// landLine asks for one line of a record.
func (f *frame) landLine(name string, n int, b typedBase, split bool, wrong faults) {
	f.WriteString("<tr>")
	f.cell("Crop", name+"crop", wrong, func(described string) {
		f.put(`<select name="%s" id="%s" aria-label="%s"`+described+`>`, name+"crop", name+"crop", fmt.Sprintf("Crop of line %d", n))
		f.option("", "", b.crop)
		for _, c := range crop.Commodities() {
			f.option(string(c), wording.Capital(c.Name()), b.crop)
		}
		f.WriteString("</select>")
	})
	number := func(field, label, value string) {
		f.cell(label, name+field, wrong, func(described string) {
			f.put(`<input name="%s" id="%s" value="%s" inputmode="decimal" autocomplete="off" aria-label="%s"`+described+`>`, name+field, name+field, value, fmt.Sprintf("%s of line %d", label, n))
		})
	}
	number("acres", "Base acres", b.acres)
	number("yield", "PLC yield", b.yield)
	if split {
		number("irrigated", "Percent irrigated (HIP)", b.irrigated)
	}
	f.cell("Last elected", name+"elected", wrong, func(described string) {
		f.put(`<select name="%s" id="%s" aria-label="%s"`+described+`>`, name+"elected", name+"elected", fmt.Sprintf("Last elected of line %d", n))
		f.option("", "not known", b.elected)
		for _, p := range []farm.Program{farm.PLC, farm.ARCCO, farm.ARCIC} {
			f.option(string(p), string(p), b.elected)
		}
		f.WriteString("</select>")
	})
	f.WriteString("</tr>\n")
}

// cell is a cell of a table with a field and what is wrong with it. A phone shows the head
// above the field.
func (f *frame) cell(head, name string, wrong faults, field func(described string)) {
	f.put(`<td data-head="%s">`, head)
	field(described(name, wrong))
	f.wrong(name, wrong)
	f.WriteString("</td>")
}

// described ties a field to what is wrong with it.
func described(name string, wrong faults) string {
	if len(wrong[name]) == 0 {
		return ""
	}
	return fmt.Sprintf(` aria-invalid="true" aria-describedby="fault-%s"`, name)
}

func (f *frame) option(value, label, chosen string) {
	selected := ""
	if value == chosen {
		selected = " selected"
	}
	f.put(`<option value="%s"`+selected+`>%s</option>`, value, label)
}

// input is a field with its label and help.
type input struct {
	name, label, value, help string
	list                     string // of suggestions
	short                    bool
}

func (f *frame) text(in input, wrong faults) {
	class := ""
	if in.short {
		class = ` class="short"`
	}
	f.put(`<p`+class+`><label for="%s">%s</label>`, in.name, in.label)
	list := ""
	if in.list != "" {
		list = ` list="` + in.list + `"`
	}
	f.put(`<input name="%s" id="%s" value="%s" autocomplete="off"`+list+described(in.name, wrong)+`>`, in.name, in.name, in.value)
	if in.help != "" {
		f.put(`<span class="help">%s</span>`, in.help)
	}
	f.WriteString("</p>\n")
	f.wrong(in.name, wrong)
}

// sortedKeys are the keys of a map in order.
func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
