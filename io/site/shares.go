package site

import (
	"fmt"
	"strconv"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/farm"
)

// shares asks who has a share in the crops, and how large it is.
func (s *Site) shares(d draft, r Request) Response {
	if len(d.farms) == 0 {
		return s.landPage(d, nil, false)
	}
	switch r.Form.Get("do") {
	case "person":
		d.others = append(d.others, typedPerson{})
		for i := range d.farms {
			d.farms[i].shares = append(d.farms[i].shares, "")
		}
	case "next":
		wrong := d.wrongShares()
		if a, err := s.ask(d); err == nil && len(wrong) == 0 {
			wrong = a.faults
		}
		if len(wrong) > 0 {
			return s.sharesPage(d, wrong)
		}
		return s.known(d, Request{Path: knownPath})
	case "back":
		return s.landPage(d, nil, false)
	}
	return s.sharesPage(d, nil)
}

func (s *Site) sharesPage(d draft, wrong faults) Response {
	f := newFrame("Who shares in the crops?")
	f.step = sharesPath
	f.summary(wrong)
	f.WriteString("<p>Give percent of the crop. Who shares the crop shares the payment and signs for it. A landowner on cash rent has no share. 100 is right if you own the land or pay cash rent.</p>\n")
	f.form(sharesPath, "page")
	for i := range d.others {
		f.person(d, i, wrong)
	}
	for i := range d.farms {
		f.farmShares(d, i, wrong)
	}
	f.WriteString(`<p class="buttons"><button name="do" value="next">Next: prices and county</button> <button name="do" value="person" class="second">Another person or company</button> <button name="do" value="back" class="second">Back to the record</button></p>` + "\n")
	f.hidden(d, isShares)
	f.askedOnce(wrong)
	f.WriteString("</form>\n")
	return f.response(200)
}

// isShares reports whether a field is of the page of shares: w1.name, f2.share, f2.w1.
func isShares(name string) bool {
	first, rest, _ := strings.Cut(name, ".")
	return number(first, "w") > 0 || number(first, "f") > 0 && (rest == "share" || number(rest, "w") > 0)
}

// wrongShares returns what is wrong with the percentages: none between 0 and 100, more than
// 100 together; and asks once where they leave somebody out or look like parts of one.
func (d *draft) wrongShares() faults {
	wrong := faults{}
	for i, f := range d.farms {
		name, sum := fmt.Sprintf("f%d.share", i+1), 0.0
		first := f.share
		if first == "" {
			first = "100"
		}
		for j, text := range append([]string{first}, f.shares...) {
			field := name
			if j > 0 {
				field = fmt.Sprintf("f%d.w%d", i+1, j)
			}
			percent, ok := percentOf(text)
			switch {
			case text == "":
			case !ok || !(percent >= 0 && percent <= 100):
				wrong.add(field, farm.Fault{Reason: fmt.Sprintf("the share of %s is %q", d.sharer(j), text), Hint: "give percent of the crop, from 0 to 100, or a part such as 1/3"})
			case percent > 0 && percent <= 1 && !d.asked(field):
				wrong.add(field, farm.Fault{Reason: fmt.Sprintf("%s percent is very little", text), Hint: fmt.Sprintf("for %s percent write %s; press Next again if it is right", plain(100*percent), plain(100*percent))})
			}
			sum += percent
		}
		switch left := program.Round(100-sum, 2); {
		case len(wrong) > 0:
		case left < 0:
			wrong.add(name, farm.Fault{Reason: fmt.Sprintf("the shares of farm %s add to %s percent", d.farmName(i), plain(100-left)), Hint: "they may add to 100 at most"})
		case left > 0 && !d.asked(name):
			wrong.add(name, farm.Fault{Reason: fmt.Sprintf("who has the other %s percent of farm %s", plain(left), d.farmName(i)), Hint: "add a person, or press Next again if they are not to be in the answer"})
		}
	}
	return wrong
}

// percentOf reads a typed percentage, "60", or part, "1/3" of the crop.
func percentOf(text string) (percent float64, ok bool) {
	part, of, isPart := strings.Cut(text, "/")
	if !isPart {
		percent, err := strconv.ParseFloat(strings.TrimSuffix(text, "%"), 64)
		return percent, err == nil
	}
	a, err := strconv.Atoi(strings.TrimSpace(part))
	b, errOf := strconv.Atoi(strings.TrimSpace(of))
	return 100 * float64(a) / float64(b), err == nil && errOf == nil && b > 0
}

// sharer names who has share j of a farm: the visitor, then the others.
func (d *draft) sharer(j int) string {
	if j == 0 {
		return "you, the operator"
	}
	return d.otherName(j - 1)
}

// kinds of producers in plain words.
var kinds = []struct {
	kind farm.ProducerKind
	name string
}{{farm.Person, "a person"}, {farm.JointOperation, "a joint venture or general partnership"}, {farm.PassThrough, "an LLC, limited partnership or S corporation"}, {farm.Corporation, "a corporation taxed as one"}}

func (f *frame) person(d draft, i int, wrong faults) {
	name := fmt.Sprintf("w%d.", i+1)
	f.put("<fieldset>\n<legend>Person %s, beside you</legend>\n<div class=\"fields\">", fmt.Sprint(i+2))
	f.text(input{name: name + "name", label: "What to call them", value: d.others[i].name, help: "Landowner or sister will do. No real name is needed."}, wrong)
	f.put(`<p><label for="%s">What they are</label><select name="%s" id="%s"`+described(name+"kind", wrong)+`>`, name+"kind", name+"kind", name+"kind")
	for _, one := range kinds {
		f.option(string(one.kind), one.name, d.others[i].kind)
	}
	f.WriteString("</select></p></div>\n</fieldset>\n")
}

func (f *frame) farmShares(d draft, i int, wrong faults) {
	name, typed := fmt.Sprintf("f%d.", i+1), d.farms[i]
	share := typed.share
	if share == "" {
		share = "100"
	}
	f.put("<fieldset>\n<legend>Farm %s: percent of the crop</legend>\n<div class=\"fields\">", d.farmName(i))
	f.text(input{name: name + "share", label: wording.Capital(d.sharer(0)), value: share, short: true, help: "Percent, or a part such as 2/3."}, wrong)
	for j := range d.others {
		f.text(input{name: fmt.Sprintf("%sw%d", name, j+1), label: d.otherName(j), value: typed.shares[j], short: true}, wrong)
	}
	f.WriteString("</div>\n</fieldset>\n")
}

// farmName is the number of a farm as typed, else its place.
func (d *draft) farmName(i int) string {
	if d.farms[i].number != "" {
		return d.farms[i].number
	}
	return fmt.Sprint(i + 1)
}

func (d *draft) otherName(i int) string { return wording.Capital(d.otherID(i)) }
