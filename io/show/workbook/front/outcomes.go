package front

import (
	"strings"

	"fencerow/io/show/workbook/cells"
)

// Columns of Outcomes: one row for each outcome of the chosen row, then the parts of all
// rows, the first of them 1 throughout.
const (
	outcomeNumber = iota + 1
	outcomePrice
	outcomeYield
	outcomeTarget
	outcomeBenchmarkPrice
	outcomeBenchmarkYield
	outcomeRevenue
	outcomeGuarantee
	outcomeMaximum
	outcomePLC
	outcomeARC
	outcomeWho
	_
	outcomeParts
)

var outcomeTitles = []string{
	"outcome", "national price", "county yield", "effective reference price", "benchmark price", "benchmark yield", "benchmark revenue", "guarantee", "most paid",
	"PLC, $ per base acre", "ARC-CO, $ per base acre", "1: ARC-CO pays more; 2: PLC; 0: neither pays; 3: both the same", "", "parts: 1, then those of each crop and county",
}

// layOutcomes lays out the outcomes. Every price and yield used is multiplied by the part
// of the outcome and rounded as the law rounds, so that all odds follow what is typed.
func (b *Book) layOutcomes() {
	s, n := b.outcomes, b.first().Outcomes
	s.Paper.Hidden = true
	s.Heads(outcomeTitles...)
	for i := range n {
		s.Add(fixed(float64(i + 1)))
		b.layOutcome(i + 2)
		s.Set(outcomeParts, i+2, fixed(1))
		for k, parts := range b.parts {
			s.Set(outcomeParts+1+k, i+2, fixed(parts[i]))
		}
	}
}

// outcomeFormulas are those of one outcome: [word] is a cell of its row, [[word]] the part
// that a column of the parts has in this outcome.
var outcomeFormulas = []rowFormula{
	{outcomePrice, "", "ROUND(national_price*[[price_parts]]*lift,price_decimals)"},
	{outcomeYield, "", "ROUND(county_yield*[[yield_parts]]*lift,yield_decimals)"},
	{outcomeTarget, "", "ROUND(effective_reference_price*[[reference_parts]]*lift,fine_decimals)"},
	{outcomeBenchmarkPrice, "", "ROUND(benchmark_price*[[benchmark_price_parts]]*lift,benchmark_decimals)"},
	{outcomeBenchmarkYield, "", "ROUND(benchmark_yield*[[benchmark_yield_parts]]*lift,yield_decimals)"},
	{outcomeRevenue, "", "ROUND([benchmark yield]*[benchmark price]*lift,2)"},
	{outcomeGuarantee, "", "ROUND(guarantee_share*[revenue]*lift,2)"},
	{outcomeMaximum, "", "ROUND(most_share*[revenue]*lift,2)"},
	{outcomePLC, "", "ROUND(MAX(0,[target]-MAX([price],loan_rate))*lift,rate_decimals)*plc_yield*payment_acre_share"},
	{outcomeARC, "", "MIN([most],MAX(0,ROUND(([guarantee]-ROUND([yield]*MAX([price],loan_rate)*lift,2))*lift,2)))*payment_acre_share"},
	{outcomeWho, "", "IF(ROUND([arc]*lift,2)>ROUND([plc]*lift,2),1,IF(ROUND([plc]*lift,2)>ROUND([arc]*lift,2),2,IF(ROUND([plc]*lift,2)>0,3,0)))"},
}

func (b *Book) layOutcome(r int) {
	s := b.outcomes
	own := func(column int) string { return cells.At(s, column, r).Address() }
	parts := "INDEX($" + own(outcomeParts) + ":$" + own(outcomeParts+len(b.parts)) + ",1,"
	fill := strings.NewReplacer("[[", parts, "]]", ")",
		"[price]", own(outcomePrice), "[yield]", own(outcomeYield), "[target]", own(outcomeTarget), "[benchmark price]", own(outcomeBenchmarkPrice), "[benchmark yield]", own(outcomeBenchmarkYield),
		"[revenue]", own(outcomeRevenue), "[guarantee]", own(outcomeGuarantee), "[most]", own(outcomeMaximum), "[plc]", own(outcomePLC), "[arc]", own(outcomeARC))
	for _, f := range outcomeFormulas {
		s.Set(f.column, r, formula(cells.Look{Format: "General"}, fill.Replace(f.text)))
	}
}

// outcomeColumn is a column of Outcomes over all outcomes.
func (b *Book) outcomeColumn(column int) string {
	return cells.Columns(b.outcomes, column, 2, b.first().Outcomes+1)
}
