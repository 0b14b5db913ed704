package explain

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// RulesFormat names the JSON of Rules.
const RulesFormat = "fencerow/rules/1"

// Rules are the parameters in force for one commodity and crop year.
type Rules struct {
	Format    string         `json:"format"`
	CropYear  crop.CropYear  `json:"crop_year"`
	Commodity crop.Commodity `json:"commodity"`
	Figures   []RuleFigure   `json:"figures"`
}

// RuleFigure is one parameter with its status and citation.
type RuleFigure struct {
	ID     string        `json:"id"`
	Value  *answer.Price `json:"value"`
	Text   string        `json:"text,omitempty"` // where the value is a word or a date
	Unit   string        `json:"unit"`
	Status crop.Status   `json:"status"`
	Source string        `json:"source"`
	Note   string        `json:"note,omitempty"`
}

// RulesOf lists the parameters of a commodity and crop year with status and
// citation; prices are in the commodity's own unit. An error wraps
// law.ErrNoValue where the law has none.
func RulesOf(market farm.Market, c crop.Commodity, y crop.CropYear) (Rules, error) {
	n, err := position.NationalOf(market, c, y)
	if err != nil {
		return Rules{}, err
	}
	terms := n.Terms
	unit := c.Unit().Price()
	rules := Rules{Format: RulesFormat, CropYear: y, Commodity: c}
	figure := func(id string, value float64, decimals int, unit string, rows ...string) {
		row := terms.Rows[rows[0]]
		rules.Figures = append(rules.Figures, RuleFigure{ID: id, Value: &answer.Price{Value: value, Decimals: decimals}, Unit: unit, Status: terms.Status(rows...), Source: citation(row), Note: row.Note})
	}
	figure("reference_price", terms.ReferencePrice, terms.ReferenceDecimals(), unit, "reference_price", "reference_price_step")
	rules.Figures = append(rules.Figures, computedFigure(n, "effective_reference_price", n.Target, n.TargetDecimals(), unit))
	figure("loan_rate", terms.LoanRate, n.TargetDecimals(), unit, "loan_rate")
	rules.Figures = append(rules.Figures, computedFigure(n, "benchmark_price", n.BenchmarkPrice, terms.BenchmarkDecimals, unit))
	figure("guarantee_share", terms.GuaranteeShare, 2, "1", "guarantee_share")
	figure("maximum_share", terms.MaximumShare, 2, "1", "maximum_share")
	figure("payment_acre_share", terms.PaymentAcreShare, 2, "1", "payment_acre_share")
	rules.Figures = append(rules.Figures, rowFigures(c, y)...)
	return rules, nil
}

// computedFigure describes a price that is computed from past national prices.
func computedFigure(n position.National, id string, f farm.Figure, decimals int, unit string) RuleFigure {
	figure := RuleFigure{ID: id, Value: answer.PriceOf(n, f, decimals), Unit: unit, Status: f.Status, Source: f.Source, Note: "national prices: " + n.PriceHistoryText()}
	if f.Status == "" {
		figure.Status, figure.Note = crop.Unverified, "unknown without "+n.Missing
	}
	return figure
}

// rowFigures lists further rows of the law that hold for the year.
func rowFigures(c crop.Commodity, y crop.CropYear) []RuleFigure {
	var figures []RuleFigure
	for _, id := range []string{"reference_price_average_share", "effective_reference_price_limit", "oldest_benchmark_lag", "marketing_year_start", "payment_limit", "sequestration", "election_rule", "last_signup_day", "base_county", "two_practices"} {
		row, err := law.Find(id, c, y)
		if err != nil {
			continue // not part of that year's law
		}
		figure := RuleFigure{ID: id, Unit: row.Unit, Status: row.Status, Source: citation(row), Note: row.Note}
		if row.Unit == "word" || row.Unit == "date" {
			figure.Text = row.Text
		} else {
			figure.Value = &answer.Price{Value: row.Number, Decimals: decimalsOf(row.Text)}
		}
		figures = append(figures, figure)
	}
	return figures
}

// citation writes the source out with its title and date.
func citation(row law.Figure) string {
	source := law.SourceOf(row)
	return fmt.Sprintf("%s: %s (%s)", row.Citation(), source.Title, source.Date)
}

// decimalsOf counts the decimals a row is written with.
func decimalsOf(text string) int {
	for i := range text {
		if text[i] == '.' {
			return len(text) - i - 1
		}
	}
	return 0
}
