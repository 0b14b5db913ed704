package operation

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"fencerow/program/farm"
)

// twoFarms has an invented operation whose producers and shares are put in.
func twoFarms(producers, first, second string) []byte {
	return fmt.Appendf(nil, `format: fencerow/operation/1
crop_years: [2026]
producers: %s
farms:
  - farm: 0417
    county: 99001
    shares: %s
    bases: [{commodity: corn, base_acres: 120}]
  - farm: 0418
    county: 99001
    bases: [{commodity: corn, base_acres: 80, shares: %s}]
`, producers, first, second)
}

// A producer that only shares name is a person, declared by the first use, after those
// of the list; a file without a list then has no other.
func TestProducerDeclaredByUse(t *testing.T) {
	for _, c := range []struct{ producers, first, second, want string }{
		{"[{id: ann}]", "{ann: 50%, walter: 0.5}", "{walter: 1}", "ann walter"},
		{"", "{walter: 0.5, ann: 0.5}", "{ann: 1}", "walter ann"},
		{"", "{2026: {walter: 0.5}}", "{operator: 1}", "walter operator"},
		{"[]", "{operator: 0.5}", "{operator: 1}", "operator"},
		{"[{id: bell_farms, kind: corporation, members: [{id: carla, share: 1}]}]", "{bell_farms: 1}", "{carla: 1}", "bell_farms carla"},
		{"[{id: ann}]", "{ann: 1}", "{walter: }", "ann"},
	} {
		o, err := Parse("farms.yaml", twoFarms(c.producers, c.first, c.second))
		if err != nil {
			t.Errorf("%s %s: %v", c.first, c.second, err)
			continue
		}
		var ids []string
		for _, p := range o.Producers {
			ids = append(ids, p.ID)
			if p.ID != "bell_farms" && (p.Kind != farm.Person || p.TenAcreExempt != farm.NotExempt || len(p.Members) > 0 || p.OtherIncome != 0) {
				t.Errorf("%s %s: %+v, want a person of whom nothing is known", c.first, c.second, p)
			}
		}
		if got := strings.Join(ids, " "); got != c.want {
			t.Errorf("%s %s: producers %s, want %s", c.first, c.second, got, c.want)
		}
	}
}

// Who is near to a known producer is a slip, and a crop or crop year is nobody.
func TestProducerNotDeclaredByUse(t *testing.T) {
	for _, c := range []struct {
		producers, first, second string
		line, column             int
		value, hint              string
	}{
		{"[{id: walter}]", "{walter: 0.5}", "{wallter: 1}", 11, 56, "wallter", "did you mean walter? the producers of this file are walter; list others under producers"},
		{"", "{walter: 0.5}", "{Walter: 1}", 11, 56, "Walter", "did you mean walter?"},
		{"", "{wlater: 0.5}", "{walter: 1}", 11, 56, "walter", "did you mean wlater?"},
		{"[{id: bell_farms, kind: corporation, members: [{id: carla, share: 1}]}]", "{bell_farms: 1}", "{karla: 1}", 11, 56, "karla", "did you mean carla?"},
		{"[{id: ann}]", "{ann: 1}", "{corn: 1}", 11, 56, "corn", "the producers of this file are ann"},
		{"[{id: ann}]", "{2026: 1}", "{ann: 1}", 7, 14, "2026", "the producers of this file are ann"},
	} {
		_, err := Parse("farms.yaml", twoFarms(c.producers, c.first, c.second))
		var mistakes farm.Mistakes
		if !errors.As(err, &mistakes) || len(mistakes) != 1 {
			t.Errorf("%s %s: %v, want one mistake", c.first, c.second, err)
			continue
		}
		if m := mistakes[0]; m.Line != c.line || m.Column != c.column || m.Value != c.value || !strings.Contains(m.Reason, "name the unknown producer") || !strings.HasPrefix(m.Hint, c.hint) {
			t.Errorf("%s %s: %+v", c.first, c.second, m)
		}
	}
}

// Inside braces a comma ends the value: what is left of a number is never taken for it.
func TestNumberCutByComma(t *testing.T) {
	for typed, value := range map[string]string{"{2026: 155,000}": "155,000", "{2026: 155,000.50}": "155,000.50", "{2026: $155,000}": "$155,000", "{2027: 1, 2026: 155,000}": "155,000"} {
		_, err := Parse("farms.yaml", []byte("format: fencerow/operation/1\nsettings: {payment_limit: "+typed+"}\nfarms:\n  - {farm: 1, county: 99001, bases: [{commodity: corn, base_acres: 5}]}\n"))
		var mistakes farm.Mistakes
		if !errors.As(err, &mistakes) || len(mistakes) != 1 || mistakes[0].Value != value || mistakes[0].Line != 2 || !strings.Contains(mistakes[0].Hint, "in quotes") {
			t.Errorf("%s: %v, want one mistake about %s", typed, err, value)
		}
	}
	o, err := Parse("farms.yaml", []byte("format: fencerow/operation/1\nsettings: {payment_limit: {2026: \"155,000\"}}\nfarms:\n  - {farm: 1, county: 99001, bases: [{commodity: corn, base_acres: \"1,204.5\"}]}\n"))
	if err != nil || o.Settings.PaymentLimit[2026] != 155000 || o.Farms[0].Bases[0].BaseAcres != 1204.5 {
		t.Errorf("in quotes: %+v, %v", o, err)
	}
}
