package answer

import (
	"encoding/json"
	"strings"
	"testing"

	"fencerow/program/farm"
)

// The JSON is an object by program: PLC and ARC-CO always, null where a figure is
// missing, then the others in the order of the list (docs/formats.md, programs).
func TestByProgramIsWrittenByKey(t *testing.T) {
	x := func(d Dollars) *Dollars { return &d }
	for name, one := range map[string]struct {
		list ByProgram[Dollars]
		want string
	}{
		"nothing":       {nil, `{"PLC":null,"ARC-CO":null}`},
		"both":          {ByProgram[Dollars]{{farm.PLC, x(1)}, {farm.ARCCO, x(2.5)}}, `{"PLC":1.00,"ARC-CO":2.50}`},
		"one missing":   {ByProgram[Dollars]{{farm.PLC, nil}, {farm.ARCCO, x(2)}}, `{"PLC":null,"ARC-CO":2.00}`},
		"two more":      {ByProgram[Dollars]{{farm.PLC, x(1)}, {farm.ARCCO, x(2)}, {"THIRD", x(3)}, {"FOURTH", nil}}, `{"PLC":1.00,"ARC-CO":2.00,"THIRD":3.00,"FOURTH":null}`},
		"a third alone": {ByProgram[Dollars]{{"THIRD & <last>", x(3)}}, `{"PLC":null,"ARC-CO":null,"THIRD & <last>":3.00}`},
	} {
		var out strings.Builder
		to := json.NewEncoder(&out)
		to.SetEscapeHTML(false)
		if err := to.Encode(one.list); err != nil || strings.TrimSpace(out.String()) != one.want {
			t.Errorf("%s: %s, %v; want %s", name, out.String(), err, one.want)
		}
	}
}

func TestByProgramRefusesWhatItIsNot(t *testing.T) {
	for text, want := range map[string]string{
		`[1]`: "want an object", `3`: "want an object", `{"PLC": 1, "PLC": 2}`: "PLC stands twice", `{"PLC": "much"}`: "figures of PLC",
	} {
		var list ByProgram[Dollars]
		if err := json.Unmarshal([]byte(text), &list); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want an error with %q", text, err, want)
		}
	}
}
