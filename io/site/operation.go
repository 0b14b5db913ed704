package site

import (
	"fmt"
	"strconv"
	"strings"

	"fencerow/program/farm"
)

// operationName is the name of the operation file that a draft becomes.
const operationName = "operation.yaml"

// written is the operation file of a draft, and the field behind each of its lines, so
// that a mistake found in the file can be said beside the field.
type written struct {
	text   strings.Builder
	fields map[int]string
	lines  int
}

// line writes one line for a field; "": for none.
func (w *written) line(field, form string, args ...any) {
	fmt.Fprintf(&w.text, form+"\n", args...)
	w.lines++
	if field != "" {
		w.fields[w.lines] = field
	}
}

// quoted is a typed text as a value of the file.
func quoted(text string) string { return strconv.Quote(text) }

// figure is a typed number as a value of the file: as it is, or in quotes where it has a
// comma or is none, so that the file stays one.
func figure(text string) string {
	if plain := strings.TrimSuffix(text, "%"); plain != "" && strings.Trim(plain, "0123456789.") == "" {
		return text
	}
	return strconv.Quote(text)
}

// you is the visitor among the producers of the file.
const you = farm.SoleProducer

// operation writes the operation file of what is typed.
func (d *draft) operation() *written {
	w := &written{fields: map[int]string{}}
	w.line("", "format: fencerow/operation/1")
	for _, name := range d.countyFileNames() {
		if name == d.countyFileNames()[0] {
			w.line("", "county_files:")
		}
		w.line("", "  - %s", quoted(name))
	}
	if d.hasMarket() {
		w.line("", "market_file: %s", pricesName)
	}
	w.line("", "producers:")
	w.line("", "  - {id: %s, kind: person}", you)
	for i, other := range d.others {
		name := fmt.Sprintf("w%d.", i+1)
		w.line(name+"name", "  - id: %s", quoted(d.otherID(i)))
		kind := other.kind
		if kind == "" {
			kind = string(farm.Person)
		}
		w.line(name+"kind", "    kind: %s", quoted(kind))
	}
	w.line("", "farms:")
	for i := range d.farms {
		d.writeFarm(w, i)
	}
	return w
}

// otherID names a person by what was typed, else by a number.
func (d *draft) otherID(i int) string {
	if name := d.others[i].name; name != "" {
		return name
	}
	return fmt.Sprintf("person %d", i+2)
}

func (d *draft) writeFarm(w *written, i int) {
	f, name := d.farms[i], fmt.Sprintf("f%d.", i+1)
	number := f.number
	if number == "" {
		number = strconv.Itoa(i + 1)
	}
	w.line(name+"number", "  - farm: %s", quoted(number))
	w.line(name+"county", "    county: %s", quoted(f.county))
	w.line("", "    shares:")
	share := f.share
	if share == "" {
		share = "100"
	}
	w.line(name+"share", "      %s: %s", you, figure(percent(share)))
	for j, share := range f.shares {
		if share != "" {
			w.line(fmt.Sprintf("%sw%d", name, j+1), "      %s: %s", quoted(d.otherID(j)), figure(percent(share)))
		}
	}
	d.writeElected(w, i)
	w.line("", "    bases:")
	for j, b := range f.bases {
		line := fmt.Sprintf("%sb%d.", name, j+1)
		w.line(line+"crop", "      - commodity: %s", quoted(b.crop))
		w.line(line+"acres", "        base_acres: %s", figure(b.acres))
		if b.yield != "" {
			w.line(line+"yield", "        payment_yield: %s", figure(b.yield))
		}
		if b.irrigated != "" {
			w.line(line+"irrigated", "        irrigated_share: %s", figure(percent(b.irrigated)))
		}
	}
}

// writeElected writes the last elections, each crop once.
func (d *draft) writeElected(w *written, i int) {
	said := map[string]bool{}
	for j, b := range d.farms[i].bases {
		if b.elected == "" || b.crop == "" || said[b.crop] {
			continue
		}
		if len(said) == 0 {
			w.line("", "    election_on_record:")
		}
		said[b.crop] = true
		w.line(fmt.Sprintf("f%d.b%d.elected", i+1, j+1), "      %s: %s", quoted(b.crop), b.elected)
	}
}

// percent writes a typed percentage, or part of the crop, as a percentage.
func percent(text string) string {
	if of, ok := percentOf(text); ok && strings.Contains(text, "/") {
		text = plain(of)
	}
	return strings.TrimSuffix(strings.TrimSpace(text), "%") + "%"
}
