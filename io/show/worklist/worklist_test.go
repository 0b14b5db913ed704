package worklist_test

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/io/show/worklist"
	"fencerow/io/source"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
)

// decided is the invented operation of 12 farms and 5 people; all of it, or with every
// choice, signature and paper taken out.
func decided(t *testing.T, typed bool) (farm.Operation, answer.Comparison) {
	t.Helper()
	found, err := source.Question(source.Request{Operation: "decided.yaml", Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Seed: 1, Draws: 256, Files: os.DirFS("../../../cmd/fencerow/testdata/sheets")})
	if err != nil {
		t.Fatal(err)
	}
	o := &found.Question.Operation
	if !typed {
		for i := range o.Farms {
			o.Farms[i].Choice, o.Farms[i].Signed = nil, nil
		}
		for i := range o.Producers {
			o.Producers[i].Papers = nil
		}
	}
	c, err := compare.Answer(found.Question)
	if err != nil {
		t.Fatal(err)
	}
	return *o, c
}

// grids are the tables of a report.
func grids(r report.Report) (all []report.Grid) {
	for _, b := range r.Blocks {
		if g, is := b.(report.Grid); is {
			all = append(all, g)
		}
	}
	return all
}

// The list of elections has each farm and crop once, under the office of its county, with
// the choice of the file or a blank, and every signer with what the file says of him.
func TestElectionListIsComplete(t *testing.T) {
	o, c := decided(t, true)
	rows := map[string][]string{}
	for _, g := range grids(worklist.OfElections(c)) {
		for _, row := range g.Rows {
			key := row[0] + " " + row[1]
			if rows[key] != nil {
				t.Errorf("%s stands twice", key)
			}
			rows[key] = append(slices.Clone(row), g.Title...)
		}
	}
	checked := 0
	for _, f := range o.Farms {
		office := map[string]string{"99005": "Cedar County (99005) office, 2026", "99007": "Dogwood County (99007) office, 2026"}[f.County]
		shares, _ := f.Shares.In(2026)
		for _, b := range f.Bases {
			row := rows[f.Number+" "+b.Commodity.Name()]
			if row == nil {
				t.Fatalf("farm %s, %s is not listed", f.Number, b.Commodity)
			}
			last, choice := "not given", "____"
			if p, has := f.Record[b.Commodity]; has {
				last = string(p)
			}
			if p, has := f.Choice[2026][b.Commodity]; has {
				choice = string(p)
			}
			if row[2] != last || row[3] != choice || row[6] != office {
				t.Errorf("farm %s, %s: %q, want %s, %s, %s", f.Number, b.Commodity, row, last, choice, office)
			}
			sum := 0.0
			for _, share := range shares {
				sum += share
			}
			for id := range shares {
				if !slices.Contains(strings.Split(row[4], ", "), id) {
					t.Errorf("farm %s: %s is not among %q", f.Number, id, row[4])
				}
				want := wording.NotRecorded
				switch s := f.Signed[2026][id]; {
				case s.On != "":
					want = id + " signed " + wording.Date(s.On)
				case s.Signed == farm.Yes:
					want = id + " signed"
				case s.Signed == farm.No:
					want = id + " not signed"
				}
				if len(shares) == 1 && sum > 0.999 {
					want = strings.TrimPrefix(want, id+" ")
				}
				if !strings.Contains(row[5], want) {
					t.Errorf("farm %s, %s: %q, want %q", f.Number, id, row[5], want)
				}
			}
			if others := strings.Contains(row[4], "people outside this file"); others != (sum < 0.999) {
				t.Errorf("farm %s: %q with shares of %v", f.Number, row[4], sum)
			}
			checked++
		}
	}
	if checked != 24 || len(rows) != 24 {
		t.Errorf("checked %d of %d lines, want 24", checked, len(rows))
	}
	if said := fmt.Sprint(worklist.OfElections(c)); !strings.Contains(said, "choices are typed for 7 of 24 farms and crops. 5 of 20 signatures are recorded here.") || !strings.Contains(said, "Farms 4100 and 4149 are rented for cash. The landowner there has no share in the crop and no vote on the election.") {
		t.Error(said)
	}
}

// The list of calls has every person with all farms in which there is a share, the dollars of
// the answer, and each signature and paper that is noted, or not.
func TestCallListIsComplete(t *testing.T) {
	o, c := decided(t, true)
	said, dollars, order := map[string]string{}, map[string]report.Grid{}, []string{}
	for _, b := range worklist.OfCalls(c).Blocks {
		switch b := b.(type) {
		case report.Heading:
			if b.Level == 3 {
				order = append(order, b.Text)
			}
		case report.Grid:
			dollars[order[len(order)-1]] = b
		case report.List:
			for _, p := range b {
				said[order[len(order)-1]] += p.Text + "\n"
			}
		}
	}
	if len(order) != 5 {
		t.Fatalf("%v", order)
	}
	y := c.CropYears[0]
	for _, p := range o.Producers {
		for _, f := range o.Farms {
			shares, _ := f.Shares.In(2026)
			if named := strings.Contains(said[p.ID], f.Number); named != (shares[p.ID] > 0) {
				t.Errorf("%s, farm %s: %s", p.ID, f.Number, said[p.ID])
			}
		}
		for i, set := range []answer.UnderName{answer.LastElected, answer.TypedChoice} {
			people := y.Operation.UnderElections(set).ByPerson
			at := slices.IndexFunc(people, func(one answer.PersonPart) bool { return one.ID == p.ID })
			low := answer.Dollars(people[at].Percentiles[1])
			if row := dollars[p.ID].Rows[i]; row[1] != wording.Whole(&people[at].MeanAfterLimit) || row[2] != wording.Whole(&low) {
				t.Errorf("%s, %s: %v", p.ID, set, row)
			}
		}
		for _, paper := range farm.Papers() {
			want := "not recorded here"
			switch p.Papers[2026][paper] {
			case farm.Yes:
				want = "there"
			case farm.No:
				want = "not there"
			}
			if paper == farm.MembersPaper && p.Kind == farm.Person {
				want = ""
			}
			found := ""
			for _, sentence := range strings.Split(said[p.ID], ".") {
				if words, after, is := strings.Cut(strings.TrimSpace(sentence), ": "); is && strings.HasPrefix(words, "Papers ") && strings.Contains(after, paper.Name()) {
					found += strings.TrimPrefix(words, "Papers ")
				}
			}
			if found != want {
				t.Errorf("%s, %s: %q, want %q", p.ID, paper, found, want)
			}
		}
	}
	for id, want := range map[string]string{
		"operator": "Signature on farms 4100, 4121, 4149, 4163 and 4177: not recorded here.\nFarms 4107, 4135 and 4142: signed November 20, 2026.",
		"uncle":    "Farm 4114: not signed.", "brother": "Farm 4114: signed.", "estate": "Owned by sister (50 percent) and brother (50 percent).\nFarms 4121 and 4163: must agree with operator.", "sister": "Part owner of estate.\nFarms 4107 and 4149: must agree with operator.",
	} {
		if !strings.Contains(said[id], want) {
			t.Errorf("%s: %s, want %s", id, said[id], want)
		}
	}
}

// With nothing typed no choice, signature or paper appears anywhere, and nothing is called
// missing.
func TestNothingAppearsThatWasNotTyped(t *testing.T) {
	_, c := decided(t, false)
	for _, g := range grids(worklist.OfElections(c)) {
		for _, row := range g.Rows {
			if row[3] != "____" || row[5] != wording.NotRecorded {
				t.Errorf("%v", row)
			}
		}
	}
	for name, r := range map[string]report.Report{"elections": worklist.OfElections(c), "calls": worklist.OfCalls(c)} {
		said := fmt.Sprint(r)
		for _, word := range []string{"missing", "signed November", "Papers there", "Papers not there"} {
			if strings.Contains(said, word) {
				t.Errorf("%s has %q: %s", name, word, said)
			}
		}
		if !strings.Contains(said, "choices are typed for 0 of 24 farms and crops. 0 of 20 signatures are recorded here.") {
			t.Errorf("%s: %s", name, said)
		}
	}
	text, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"typed_choice", `"signed"`, "signed_on", "papers"} {
		if strings.Contains(string(text), key) {
			t.Errorf("the JSON has %s", key)
		}
	}
}

// In a year that pays the higher of both there is nothing to elect.
func TestNoElectionsWhereTheHigherIsPaid(t *testing.T) {
	_, c := decided(t, true)
	for i := range c.CropYears[0].Standing.Lines {
		c.CropYears[0].Standing.Lines[i].Highest = farm.HigherOf
	}
	if r := worklist.OfElections(c); len(grids(r)) > 0 || !strings.Contains(fmt.Sprint(r), "pays the higher") {
		t.Error(r)
	}
}

// An owner without a share of his own is told through whom he is paid, and owners outside the
// file are a part of the entity's.
func TestOwnersOfAnEntity(t *testing.T) {
	_, c := decided(t, true)
	y := &c.CropYears[0]
	y.Standing.Entities = []answer.EntityPart{{ID: "estate", Members: []answer.MemberPart{{ID: "sister", Share: 0.25}, {ID: "aunt", Share: 0.25}}}}
	y.Operation.Under[0].ByPerson = append(y.Operation.Under[0].ByPerson, answer.PersonPart{ID: "aunt"})
	said := fmt.Sprint(worklist.OfCalls(c))
	for _, want := range []string{"Owned by sister (25 percent), aunt (25 percent) and people outside this file (50 percent).", "paid through estate, which signs for its farms."} {
		if !strings.Contains(said, want) {
			t.Errorf("does not say %q: %s", want, said)
		}
	}
}
