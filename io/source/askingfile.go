package source

import (
	"fmt"
	"strings"
)

// Operation returns the operation file that the answers stand for. What was skipped is
// not in it; a comment says so.
func (a *Asking) Operation() []byte {
	var b strings.Builder
	b.WriteString("format: fencerow/operation/1\nproducers:\n  - {id: operator, kind: person}\nfarms:\n")
	for _, f := range a.farms {
		fmt.Fprintf(&b, "  - farm: %q\n    county: %q", f.number, f.county)
		if f.countyWords != f.county {
			b.WriteString(" # " + f.countyWords)
		}
		b.WriteString("\n")
		var elected []string
		for _, base := range f.bases {
			if base.election != "" {
				elected = append(elected, fmt.Sprintf("%s: %s", base.commodity, base.election))
			}
		}
		if len(elected) > 0 {
			fmt.Fprintf(&b, "    election_on_record: {%s}\n", strings.Join(elected, ", "))
		}
		b.WriteString(f.noticeLines())
		fmt.Fprintf(&b, "    shares: {operator: %s}\n    bases:\n", plainNumber(f.share))
		for _, base := range f.bases {
			b.WriteString(base.line())
		}
	}
	return []byte(b.String())
}

// noticeLines are what is known of the notice of new base.
func (f askedFarm) noticeLines() string {
	if f.beforeNotice == nil {
		return ""
	}
	if !*f.beforeNotice {
		return "    record_before_notice: no\n"
	}
	var bases []string
	for _, base := range f.bases {
		if base.notice == nil {
			continue
		}
		yield := ""
		if base.notice.PaymentYield != nil {
			yield = ", payment_yield: " + plainNumber(*base.notice.PaymentYield)
		}
		bases = append(bases, fmt.Sprintf("%s: {base_acres: %s%s}", base.commodity, plainNumber(base.notice.BaseAcres), yield))
	}
	lines := "    record_before_notice: yes\n"
	if len(bases) > 0 {
		lines += fmt.Sprintf("    notice: {%s}\n", strings.Join(bases, ", "))
	}
	return lines
}

// line is a base in an operation file.
func (base askedBase) line() string {
	fields := []string{fmt.Sprintf("commodity: %s, base_acres: %s", base.commodity, plainNumber(base.acres))}
	unknown := ""
	if base.yield != nil {
		fields = append(fields, "payment_yield: "+plainNumber(*base.yield))
	} else {
		unknown = " # payment_yield: not known"
	}
	if base.irrigated != nil {
		fields = append(fields, "irrigated_share: "+plainNumber(*base.irrigated))
	}
	return fmt.Sprintf("      - {%s}%s\n", strings.Join(fields, ", "), unknown)
}
