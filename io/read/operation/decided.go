package operation

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fencerow/io/read/document"
	"fencerow/io/read/spelling"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// readChoice reads what was chosen: a program by commodity, for each crop year.
func (r *reader) readChoice(v document.Node, what string) map[crop.CropYear]map[crop.Commodity]farm.Program {
	return document.ByCropYear(r.Reader, v, "choice of "+what, farm.ProgramYears(), func(v document.Node, what string, year crop.CropYear) (map[crop.Commodity]farm.Program, bool) {
		choice := map[crop.Commodity]farm.Program{}
		r.ByCommodity(v, what, func(c crop.Commodity, key, v document.Node) {
			program, ok := document.Spelled(r.Reader, v, what+" for "+c.Name(), spelling.Program, farm.PLC, farm.ARCCO, farm.ARCIC)
			if ok && r.Check(key, farm.CheckCovered(c, year)) {
				choice[c] = program
			}
		})
		return choice, len(choice) > 0
	})
}

// readSigned reads who signed: by crop year and producer the day, or yes, no or unknown.
func (r *reader) readSigned(v document.Node, what string) map[crop.CropYear]map[string]farm.Signature {
	return document.ByCropYear(r.Reader, v, "signed of "+what, farm.ProgramYears(), func(v document.Node, what string, _ crop.CropYear) (map[string]farm.Signature, bool) {
		signed := map[string]farm.Signature{}
		r.Entries(v, what, func(key, v document.Node) {
			if !r.producers[key.Text] {
				r.refuseProducer(key, what)
				return
			}
			if s, ok := r.signature(v, what+" by "+key.Text); ok {
				signed[key.Text] = s
			}
		})
		return signed, len(signed) > 0
	})
}

// signature reads a day, or yes, no or unknown.
func (r *reader) signature(v document.Node, what string) (s farm.Signature, ok bool) {
	if v.Kind == document.Scalar && strings.ContainsAny(v.Text, "0123456789") { // meant as a day
		day, ok := r.Date(v, what)
		return farm.Signature{Signed: farm.Yes, On: day.Format(time.DateOnly)}, ok
	}
	s.Signed, ok = r.noted(v, what)
	return s, ok
}

// noted reads yes, no or unknown.
func (r *reader) noted(v document.Node, what string) (farm.Noted, bool) {
	return document.Spelled(r.Reader, v, what, spelling.Noted, farm.Yes, farm.No, "unknown")
}

// readPapers reads which papers of a producer the county office has, for each crop year.
func (r *reader) readPapers(v document.Node, what string) map[crop.CropYear]map[farm.Paper]farm.Noted {
	return document.ByCropYear(r.Reader, v, "papers of "+what, farm.ProgramYears(), func(v document.Node, what string, _ crop.CropYear) (map[farm.Paper]farm.Noted, bool) {
		papers := map[farm.Paper]farm.Noted{}
		var fields []document.Field
		for _, p := range farm.Papers() {
			fields = append(fields, document.May(string(p), func(v document.Node) {
				if noted, ok := r.noted(v, string(p)+" in "+what); ok && noted != farm.Unknown {
					papers[p] = noted
				}
			}))
		}
		r.Fields(v, what, fields...)
		return papers, len(papers) > 0
	})
}

// checkDecided checks choices and signatures against the bases and shares of the farm.
func (r *reader) checkDecided(item document.Node, f *farm.Farm, what string) {
	if len(f.Bases) == 0 || len(f.Bases) < len(item.Get("bases").Items) {
		return // one is refused already, or nothing could be elected
	}
	for year := range f.Choice {
		typed := item.Get("choice").Get(fmt.Sprint(year))
		if c, fault := f.CheckChoice(year); len(typed.Pairs) == len(f.Choice[year]) { // else one is refused already
			r.Check(keyOf(typed, c), fault)
		}
	}
	for year, signed := range f.Signed {
		can := f.Sharing(year)
		for _, pair := range item.Get("signed").Get(fmt.Sprint(year)).Pairs {
			if _, read := signed[pair.Key().Text]; read && len(can) > 0 && !slices.Contains(can, pair.Key().Text) {
				r.Refuse(pair.Key(), fmt.Sprintf("signed of %s of crop year %d names %s, who has no share in it", what, year, pair.Key().Text), "who has a share signs, a landowner for cash rent does not. With a share: "+strings.Join(can, ", "))
			}
		}
	}
}

// keyOf returns the key of a commodity in a map, by any of its spellings, else the map.
func keyOf(v document.Node, c crop.Commodity) document.Node {
	for _, pair := range v.Pairs {
		if found, ok := crop.ParseCommodity(pair.Key().Text); ok && found == c {
			return pair.Key()
		}
	}
	return v
}
