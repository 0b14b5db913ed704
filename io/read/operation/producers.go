package operation

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/read/document"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// readProducers reads the people and entities of the file; without any, one
// person holds all shares, unless shares name others.
func (r *reader) readProducers(v document.Node) {
	if v.Kind == document.Empty || v.Kind == document.List && len(v.Items) == 0 {
		r.producers[farm.SoleProducer] = true
		r.operation.Producers = []farm.Producer{{ID: farm.SoleProducer, Kind: farm.Person, TenAcreExempt: farm.NotExempt}}
		return
	}
	r.named = true
	places := map[string]document.Node{}
	r.Items(v, "producers", func(item document.Node) {
		p := r.readProducer(item)
		if p.ID == "" {
			return
		}
		if first, twice := places[p.ID]; twice {
			r.Refuse(item.Get("id"), fmt.Sprintf("producer %q stands twice", p.ID), fmt.Sprintf("it is also on line %d; give each producer an id of its own", first.Line))
			return
		}
		places[p.ID] = item.Get("id")
		r.producers[p.ID] = true
		r.operation.Producers = append(r.operation.Producers, p)
	})
	r.refuseWithoutMembers(places)
	rings := circles(r.operation.Producers)
	for _, circle := range rings {
		r.Refuse(places[circle[0]], "the members form a circle: "+strings.Join(circle, " > "), "an entity cannot own a part of itself; correct the members")
	}
	if len(rings) == 0 {
		r.refuseDeepOwnership(places)
	}
}

// refuseWithoutMembers refuses an entity without members where the limit of a crop
// year asked about goes by them; a file that names no crop year may be asked about any.
func (r *reader) refuseWithoutMembers(places map[string]document.Node) {
	years := r.operation.CropYears
	if len(years) == 0 {
		years = []crop.CropYear{farm.ProgramYears().Last}
	}
	for _, p := range r.operation.Producers {
		for _, y := range years {
			if fault := p.CheckMembers(y); fault != nil {
				r.Refuse(places[p.ID], fault.Reason, fault.Hint)
				break
			}
		}
	}
}

// refuseDeepOwnership refuses entities within entities beyond the levels through
// which the law traces payments: what happens there is for the county office.
func (r *reader) refuseDeepOwnership(places map[string]document.Node) {
	levels, err := law.Find("attribution_levels", "", farm.ProgramYears().Last)
	if err != nil {
		return
	}
	entities := map[string]farm.Producer{}
	for _, p := range r.operation.Producers {
		if len(p.Members) > 0 {
			entities[p.ID] = p
		}
	}
	for _, p := range r.operation.Producers {
		if deep := depth(p.ID, entities); float64(deep) > levels.Number {
			r.Refuse(places[p.ID], fmt.Sprintf("producer %q is owned through %d levels", p.ID, deep), fmt.Sprintf("payments are traced through %.0f levels of ownership. List the owners at the last level as people, and ask the county office", levels.Number))
		}
	}
}

// depth is the number of levels of ownership above a producer: 0 for a person, 1
// for an entity of persons.
func depth(id string, entities map[string]farm.Producer) int {
	p, entity := entities[id]
	if !entity {
		return 0
	}
	most := 0
	for _, m := range p.Members {
		most = max(most, depth(m.ID, entities))
	}
	return most + 1
}

func (r *reader) readProducer(item document.Node) farm.Producer {
	p := farm.Producer{Kind: farm.Person, TenAcreExempt: farm.NotExempt}
	what := "producer"
	if id := item.Get("id"); id.Kind == document.Scalar {
		what = "producer " + id.Text
	}
	r.Fields(item, what,
		document.Must("id", func(v document.Node) { p.ID, _ = r.Name(v, "producer id") }),
		document.May("kind", func(v document.Node) {
			p.Kind, _ = document.Word(r.Reader, v, "kind of "+what, farm.Person, farm.JointOperation, farm.PassThrough, farm.Corporation)
		}),
		document.May("members", func(v document.Node) { p.Members = r.readMembers(v, what, p.Kind) }),
		document.May("limit_used", func(v document.Node) {
			p.LimitUsed = document.ByCropYear(r.Reader, v, "limit_used of "+what, farm.ProgramYears(), r.readLimitUsed)
		}),
		document.May("papers", func(v document.Node) { p.Papers = r.readPapers(v, what) }),
		document.May("income_over_limit", func(v document.Node) { p.IncomeOverLimit, _ = r.Truth(v, "income_over_limit of "+what) }),
		document.May("ten_acre_exempt", func(v document.Node) {
			p.TenAcreExempt, _ = document.Word(r.Reader, v, "ten_acre_exempt of "+what, farm.NotExempt, farm.Beginning, farm.LimitedResource, farm.SociallyDisadvantaged, farm.Veteran)
		}),
		document.May("other_base_acres", func(v document.Node) { p.OtherBaseAcres, _ = r.acres(v, "other_base_acres of "+what) }),
		document.May("other_income", func(v document.Node) { p.OtherIncome, _ = r.income(v, "other_income of "+what) }))
	return p
}

// readMembers reads the owners of an entity. They may be people outside the
// file, who need no entry of their own.
func (r *reader) readMembers(v document.Node, what string, kind farm.ProducerKind) []farm.Member {
	if kind == farm.Person && len(v.Items) > 0 {
		r.Refuse(v, what+" is a person and has members", "leave out members, or write the kind: joint_operation, pass_through or corporation")
	}
	var members []farm.Member
	lines := map[string]int{}
	sum := 0.0
	r.Items(v, "members of "+what, func(item document.Node) {
		m := farm.Member{}
		r.Fields(item, "a member of "+what,
			document.Must("id", func(v document.Node) { m.ID, _ = r.Name(v, "member id") }),
			document.Must("share", func(v document.Node) { m.Share, _ = r.share(v, "share of member "+item.Get("id").Text) }))
		if line, twice := lines[m.ID]; twice && m.ID != "" {
			r.Refuse(item, fmt.Sprintf("member %q of %s stands twice", m.ID, what), fmt.Sprintf("it is also on line %d; add the shares", line))
			return
		}
		lines[m.ID] = item.Line
		sum += m.Share
		members = append(members, m)
	})
	r.Check(v, farm.CheckTotal("the member shares of "+what, sum))
	return members
}

func (r *reader) readLimitUsed(v document.Node, what string, _ crop.CropYear) (used farm.LimitUsed, ok bool) {
	r.Fields(v, what,
		document.May("general", func(v document.Node) { used.General, _ = r.money(v, "general of "+what, 0) }),
		document.May("peanuts", func(v document.Node) { used.Peanuts, _ = r.money(v, "peanuts of "+what, 0) }))
	return used, true
}

// circles returns each ring of entities that own each other, once, beginning
// and ending with its first producer in file order.
func circles(producers []farm.Producer) [][]string {
	members := map[string][]farm.Member{}
	for _, p := range producers {
		members[p.ID] = p.Members
	}
	var found [][]string
	done := map[string]bool{}
	var walk func(path []string)
	walk = func(path []string) {
		last := path[len(path)-1]
		for _, m := range members[last] {
			if at := slices.Index(path, m.ID); at >= 0 {
				found = append(found, append(slices.Clone(path[at:]), m.ID))
			} else if !done[m.ID] {
				walk(append(path, m.ID))
			}
		}
		done[last] = true
	}
	for _, p := range producers {
		if !done[p.ID] {
			walk([]string{p.ID})
		}
	}
	return found
}
