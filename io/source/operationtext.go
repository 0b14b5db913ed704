package source

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// operationText returns the operation file of farms with one share for each producer,
// without plantings and histories: what a first file has.
func operationText(o farm.Operation) []byte {
	var b strings.Builder
	b.WriteString("format: fencerow/operation/1\nproducers:\n")
	for _, p := range o.Producers {
		fmt.Fprintf(&b, "  - {id: %s, kind: %s}\n", p.ID, p.Kind)
	}
	b.WriteString("farms:\n")
	for i := range o.Farms {
		writeFarm(&b, &o.Farms[i])
	}
	return []byte(b.String())
}

// keyed is a key with its value; "" is not written.
type keyed struct{ key, value string }

// writeFarm leaves out what is not known.
func writeFarm(b *strings.Builder, f *farm.Farm) {
	notice := ""
	if f.BeforeNotice != nil && *f.BeforeNotice {
		notice = inBraces(noticeText(f.Notice))
	}
	shares := ""
	for id, share := range *f.Shares.Every {
		shares = "{" + id + ": " + plainNumber(share) + "}"
	}
	fmt.Fprintf(b, "  - farm: %q\n", f.Number)
	for _, one := range []keyed{
		{"county", strconv.Quote(f.County) + countyComment(f.County)},
		{"election_on_record", inBraces(electedText(f))},
		{"record_before_notice", yesOrNothing(f.BeforeNotice)},
		{"notice", notice},
		{"shares", shares},
		{"total_acres", figureText(f.TotalAcres)},
		{"cropland", figureText(f.Cropland)},
		{"idle_2009_2017", onlyYes(f.Idle20092017)},
		{"unassigned_base_acres", aboveZero(f.Unassigned)},
	} {
		if one.value != "" {
			fmt.Fprintf(b, "    %s: %s\n", one.key, one.value)
		}
	}
	b.WriteString("    bases:\n")
	for i := range f.Bases {
		writeBase(b, &f.Bases[i])
	}
}

func onlyYes(truth bool) string {
	if truth {
		return "yes"
	}
	return ""
}

func aboveZero(acres crop.Acres) string {
	if acres > 0 {
		return plainNumber(acres)
	}
	return ""
}

// inBraces is a map on one line; "" for an empty one.
func inBraces(fields []string) string {
	if len(fields) == 0 {
		return ""
	}
	return "{" + strings.Join(fields, ", ") + "}"
}

func yesOrNothing(truth *bool) string {
	if truth == nil {
		return ""
	}
	return yesNo(*truth)
}

func figureText(x *float64) string {
	if x == nil {
		return ""
	}
	return plainNumber(*x)
}

func quotedText(text string) string {
	if text == "" {
		return ""
	}
	return strconv.Quote(text)
}

// electedText are the last elections, in the order of the bases.
func electedText(f *farm.Farm) (fields []string) {
	for _, base := range f.Bases {
		field := string(base.Commodity) + ": " + string(f.Record[base.Commodity])
		if f.Record[base.Commodity] != "" && !slices.Contains(fields, field) {
			fields = append(fields, field)
		}
	}
	return fields
}

// noticeText is base as the notice of new base has it.
func noticeText(notice map[crop.Commodity]farm.NoticeBase) (fields []string) {
	for _, c := range crop.Commodities() {
		n, has := notice[c]
		if !has {
			continue
		}
		inside := []string{"base_acres: " + plainNumber(n.BaseAcres)}
		if n.PaymentYield != nil {
			inside = append(inside, "payment_yield: "+plainNumber(*n.PaymentYield))
		}
		fields = append(fields, string(c)+": "+inBraces(inside))
	}
	return fields
}

// countyComment names a county behind its code.
func countyComment(code string) string {
	if name := nameOf(code); name != code {
		return " # " + name
	}
	return ""
}

func writeBase(b *strings.Builder, base *farm.Base) {
	var fields []string
	for _, one := range []keyed{
		{"commodity", string(base.Commodity)}, {"base_acres", plainNumber(base.BaseAcres)}, {"payment_yield", figureText(base.PaymentYield)},
		{"tract", quotedText(base.Tract)}, {"county", quotedText(base.County)},
		{"irrigated_share", figureText(base.IrrigatedShare)}, {"crp_reduction", aboveZero(base.CRPReduction)},
	} {
		if one.value != "" {
			fields = append(fields, one.key+": "+one.value)
		}
	}
	unknown := ""
	if base.PaymentYield == nil {
		unknown = " # payment_yield: not known"
	}
	fmt.Fprintf(b, "      - %s%s\n", inBraces(fields), unknown)
}
