package compare_test

import (
	"slices"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// choose types a choice of corn for 2026 on a farm of a question.
func choose(c *answer.Question, at int, p farm.Program) {
	c.Operation.Farms[at].Choice = map[crop.CropYear]map[crop.Commodity]farm.Program{2026: {crop.Corn: p}}
}

// What is paid under a typed choice is, to the cent, what is paid as last elected in the
// same operation with that choice on record and no other: for every mix of programs on two
// farms of two people, one line typed, both, or ARC-IC in one pool.
func TestTypedChoiceIsPaidAsTheSameRecord(t *testing.T) {
	base := func() answer.Question {
		c := cases.OwnFarm("local_harvest", 188, invented.Number(120))
		other := c.Operation.Farms[0]
		other.Number = "0588"
		c.Operation.Producers = []farm.Producer{{ID: "operator", Kind: farm.Person}, {ID: "landowner", Kind: farm.Person}}
		c.Operation.Farms[0].Shares = farm.ByCropYear[farm.Shares]{Every: &farm.Shares{"operator": 0.6, "landowner": 0.4}}
		c.Operation.Farms[0].Record = map[crop.Commodity]farm.Program{crop.Corn: farm.ARCCO}
		other.Shares = farm.ByCropYear[farm.Shares]{Every: &farm.Shares{"operator": 1}}
		other.Record = map[crop.Commodity]farm.Program{crop.Corn: farm.ARCIC}
		other.Planted = slices.Clone(other.Planted)
		for i := range other.Planted {
			if other.Planted[i].Yield != nil {
				other.Planted[i].Yield = invented.Number(170) // pooled, the farms are paid otherwise than alone
			}
		}
		c.Operation.Farms = append(c.Operation.Farms, other)
		c.Operation.Settings.PaymentLimit = map[crop.CropYear]crop.Money{2026: 2000} // often reached
		return c
	}
	checked := 0
	for _, first := range []farm.Program{"", farm.PLC, farm.ARCCO, farm.ARCIC} {
		for _, second := range []farm.Program{"", farm.PLC, farm.ARCCO, farm.ARCIC} {
			if first == "" && second == "" {
				continue
			}
			typed, forced := base(), base()
			for i, p := range []farm.Program{first, second} {
				forced.Operation.Farms[i].Record = map[crop.Commodity]farm.Program{}
				if p != "" {
					choose(&typed, i, p)
					forced.Operation.Farms[i].Record[crop.Corn] = p
				}
			}
			got, want := *operationOf(t, typed).UnderElections(answer.TypedChoice), *operationOf(t, forced).UnderElections(answer.LastElected)
			got.Elections = want.Elections
			if invented.AsJSON(t, got) != invented.AsJSON(t, want) {
				t.Errorf("%q and %q\ntyped  %s\nforced %s", first, second, invented.AsJSON(t, got), invented.AsJSON(t, want))
			}
			if got.MeanAfterLimit == nil || *got.MeanAfterLimit <= 0 {
				t.Errorf("%q and %q pay %v", first, second, got.MeanAfterLimit)
			}
			checked++
		}
	}
	t.Logf("checked %d of 15 choices", checked)
}

// Without a typed choice there is no such set and no such line; a choice of another year is
// none of this one, and a line without one is left out by name.
func TestNothingIsFilledIn(t *testing.T) {
	c := twoFarms()
	for _, year := range []crop.CropYear{0, 2027} {
		if year != 0 {
			c.Operation.Farms[0].Choice = map[crop.CropYear]map[crop.Commodity]farm.Program{year: {crop.Corn: farm.PLC}}
		}
		y := ask(t, c).CropYears[0]
		if y.Operation.UnderElections(answer.TypedChoice) != nil || len(y.Operation.Under) != 2 || y.Standing.Lines[0].Typed != nil {
			t.Errorf("choice of %d: %s", year, invented.AsJSON(t, y.Operation.Under))
		}
	}
	choose(&c, 0, farm.ARCCO)
	y := ask(t, c).CropYears[0]
	under := y.Operation.UnderElections(answer.TypedChoice)
	if under == nil || !slices.Equal(under.LeftOut, []string{"99001-0588 corn"}) || under.Choices["99001-0417"][crop.Corn] != farm.ARCCO || len(under.Choices["99001-0588"]) > 0 {
		t.Errorf("%s", invented.AsJSON(t, under))
	}
	if lines := y.Standing.Lines; *lines[0].Typed != farm.ARCCO || lines[1].Typed != nil {
		t.Errorf("%s", invented.AsJSON(t, lines))
	}
}

// Where the law pays the higher of both, so does a typed line; others stay left out.
func TestTypedUnderTheHigherOfBoth(t *testing.T) {
	c := cases.HigherOf2025()
	c.Operation.Farms[0].Choice = map[crop.CropYear]map[crop.Commodity]farm.Program{2025: {crop.Corn: farm.PLC}}
	o := operationOf(t, c)
	if u := o.UnderElections(answer.TypedChoice); u == nil || u.Choices["99001-0417"][crop.Corn] != farm.HigherOf || *u.MeanAfterLimit != *o.MeanAfterLimit {
		t.Errorf("%s", invented.AsJSON(t, u))
	}
}

// Signatures and papers are those that were typed, of their year; of others nothing is said.
func TestSignedAndPapersOfTheYear(t *testing.T) {
	c := twoFarms()
	c.Operation.Farms[0].Signed = map[crop.CropYear]map[string]farm.Signature{2026: {"landowner": {Signed: farm.Yes, On: "2026-11-20"}}, 2027: {"operator": {Signed: farm.No}}}
	c.Operation.Producers[0].Papers = map[crop.CropYear]map[farm.Paper]farm.Noted{2026: {"income": farm.No}, 2027: {"bank": farm.Yes}}
	s := ask(t, c).CropYears[0].Standing
	operator, landowner := s.Lines[0].Signers[0], s.Lines[0].Signers[1]
	if operator.Signed != farm.Unknown || landowner.Signed != farm.Yes || landowner.On != "2026-11-20" || s.Lines[1].Signers[0].Signed != farm.Unknown {
		t.Errorf("%s", invented.AsJSON(t, s.Lines))
	}
	if len(s.Papers) != 2 || len(s.Papers[0].Noted) != 1 || s.Papers[0].Noted["income"] != farm.No || len(s.Papers[1].Noted) > 0 || s.Papers[1].ID != "landowner" {
		t.Errorf("%s", invented.AsJSON(t, s.Papers))
	}
}
