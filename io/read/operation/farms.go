package operation

import (
	"fmt"
	"slices"

	"fencerow/io/read/document"
	"fencerow/io/read/spelling"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// readFarm reads one farm and adds it to the operation.
func (r *reader) readFarm(item document.Node) {
	f := farm.Farm{}
	what := "a farm"
	if number := item.Get("farm"); number.Kind == document.Scalar {
		what = "farm " + number.Text
	}
	bases, planted := document.Node{}, document.Node{}
	r.Fields(item, what,
		document.Must("farm", func(v document.Node) { f.Number, _ = r.Name(v, "the farm number") }),
		document.Must("county", func(v document.Node) { f.County = r.county(v, "county of "+what) }),
		document.May("contract", func(v document.Node) { f.Contract = r.readContract(v, what) }),
		document.May("election_on_record", func(v document.Node) { f.Record = r.readRecord(v, what) }),
		document.May("choice", func(v document.Node) { f.Choice = r.readChoice(v, what) }),
		document.May("signed", func(v document.Node) { f.Signed = r.readSigned(v, what) }),
		document.May("shares", func(v document.Node) { f.Shares = r.readShares(v, what) }),
		document.May("lease", func(v document.Node) {
			f.Lease, _ = document.Spelled(r.Reader, v, "lease of "+what, spelling.Lease, farm.CashLease, farm.ShareLease, farm.FlexLease)
		}),
		document.May("total_acres", func(v document.Node) { f.TotalAcres = r.someAcres(v, "total_acres of "+what) }),
		document.May("cropland", func(v document.Node) {
			f.Cropland = r.someAcres(v, "cropland of "+what)
			if f.Cropland != nil && f.TotalAcres != nil && *f.Cropland > *f.TotalAcres {
				r.Refuse(v, fmt.Sprintf("cropland of %s is %s, more than its total_acres", what, v.Text), "copy both from the FSA farm record")
			}
		}),
		document.May("idle_2009_2017", func(v document.Node) { f.Idle20092017, _ = r.Truth(v, "idle_2009_2017 of "+what) }),
		document.May("unassigned_base_acres", func(v document.Node) { f.Unassigned, _ = r.acres(v, "unassigned_base_acres of "+what) }),
		document.May("record_before_notice", func(v document.Node) {
			if before, ok := r.Truth(v, "record_before_notice of "+what); ok {
				f.BeforeNotice = &before
			}
		}),
		document.May("notice", func(v document.Node) { f.Notice = r.readNotice(v, what) }),
		document.May("merge_with", func(v document.Node) {
			if f.MergeWith, _ = r.Name(v, "merge_with of "+what); f.MergeWith != "" && (f.MergeWith == f.Number || f.MergeWith == f.Key()) {
				r.Refuse(v, what+" is merged with itself", "name the other farm")
			}
		}),
		document.May("stax_bought", func(v document.Node) {
			f.STAXBought = document.ByCropYear(r.Reader, v, "stax_bought of "+what, farm.ProgramYears(), func(v document.Node, what string, _ crop.CropYear) (bool, bool) {
				return r.Truth(v, what)
			})
		}),
		document.May("insurance", func(v document.Node) { f.Insurance = r.readInsurance(v, what) }),
		document.Must("bases", func(v document.Node) { bases = v }),
		document.May("planted", func(v document.Node) { planted = v }),
		document.May("arc_ic_history", func(v document.Node) { f.History = r.readHistory(v, what) }))
	r.readBases(bases, &f, what)
	r.readPlanted(planted, &f, what)
	r.finish(item, &f, what)
}

// readNotice reads base as the notice of new base has it, by commodity.
func (r *reader) readNotice(v document.Node, what string) map[crop.Commodity]farm.NoticeBase {
	found := map[crop.Commodity]farm.NoticeBase{}
	r.ByCommodity(v, "notice of "+what, func(c crop.Commodity, _, v document.Node) {
		of := c.Name() + " in the notice of " + what
		notice := farm.NoticeBase{}
		r.Fields(v, of,
			document.Must("base_acres", func(v document.Node) { notice.BaseAcres, _ = r.acres(v, "base_acres of "+of) }),
			document.May("payment_yield", func(v document.Node) {
				if yield, ok := r.yield(v, "payment_yield of "+of, c, farm.Usual); ok {
					notice.PaymentYield = &yield
				}
			}))
		found[c] = notice
	})
	return found
}

// readContract reads one word for every crop year, or a word for each.
func (r *reader) readContract(v document.Node, what string) farm.ByCropYear[farm.Contract] {
	word := func(v document.Node, what string, _ crop.CropYear) (farm.Contract, bool) {
		return document.Spelled(r.Reader, v, what, spelling.Contract, farm.Open, farm.Signed, farm.Missed)
	}
	if v.Kind == document.Map {
		return farm.ByCropYear[farm.Contract]{Year: document.ByCropYear(r.Reader, v, "contract of "+what, farm.ProgramYears(), word)}
	}
	if c, ok := word(v, "contract of "+what, 0); ok {
		return farm.ByCropYear[farm.Contract]{Every: &c}
	}
	return farm.ByCropYear[farm.Contract]{}
}

// readRecord reads the election on record. ARC-IC holds for the whole farm, so
// it stands for every commodity or for none.
func (r *reader) readRecord(v document.Node, what string) map[crop.Commodity]farm.Program {
	record := map[crop.Commodity]farm.Program{}
	individual := 0
	r.ByCommodity(v, "election_on_record of "+what, func(c crop.Commodity, _, v document.Node) {
		program, ok := document.Spelled(r.Reader, v, "election_on_record of "+what+" for "+c.Name(), spelling.Program, farm.PLC, farm.ARCCO, farm.ARCIC)
		if !ok {
			return
		}
		record[c] = program
		if program == farm.ARCIC {
			individual++
		}
	})
	if individual > 0 && individual < len(record) {
		r.Refuse(v, "election_on_record of "+what+" mixes ARC-IC with other programs", "ARC-IC is elected for all covered crops of a farm: write it for each, or for none")
	}
	return record
}

// readShares reads one set of shares for every crop year, or a set for each.
func (r *reader) readShares(v document.Node, what string) farm.ByCropYear[farm.Shares] {
	byYear := v.Kind == document.Map && slices.ContainsFunc(v.Pairs, func(p document.Pair) bool { return p.Value.Kind == document.Map })
	if byYear {
		return farm.ByCropYear[farm.Shares]{Year: document.ByCropYear(r.Reader, v, "shares of "+what, farm.ProgramYears(), func(v document.Node, what string, _ crop.CropYear) (farm.Shares, bool) {
			return r.readShareSet(v, what), true
		})}
	}
	shares := r.readShareSet(v, "shares of "+what)
	return farm.ByCropYear[farm.Shares]{Every: &shares}
}

// readShareSet reads {producer: share}.
func (r *reader) readShareSet(v document.Node, what string) farm.Shares {
	shares := farm.Shares{}
	sum := 0.0
	r.Entries(v, what, func(key, v document.Node) {
		if !r.producers[key.Text] {
			r.refuseProducer(key, what)
			return
		}
		if share, ok := r.share(v, "share of "+key.Text); ok {
			shares[key.Text] = share
			sum += share
		}
	})
	r.Check(v, farm.CheckTotal(what, sum))
	return shares
}

func (r *reader) readHistory(v document.Node, what string) map[crop.Commodity]map[crop.CropYear]crop.Yield {
	history := map[crop.Commodity]map[crop.CropYear]crop.Yield{}
	r.ByCommodity(v, "arc_ic_history of "+what, func(c crop.Commodity, _, v document.Node) {
		history[c] = document.ByCropYear(r.Reader, v, "arc_ic_history of "+what+" for "+c.Name(), farm.HistoryYears(), func(v document.Node, what string, _ crop.CropYear) (crop.Yield, bool) {
			return r.yield(v, what, c, farm.Harvested)
		})
	})
	return history
}
