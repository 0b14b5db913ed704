package calls

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"fencerow/io/show/report"
	"fencerow/io/show/worklist"
	"fencerow/io/source"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
)

// decided is the invented operation of 12 farms and 5 people, with typed choices, signatures
// and papers.
func decided(t *testing.T) (farm.Operation, answer.Comparison) {
	t.Helper()
	found, err := source.Question(source.Request{Operation: "decided.yaml", Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Seed: 1, Draws: 256, Files: os.DirFS("../../../cmd/fencerow/testdata/sheets")})
	if err != nil {
		t.Fatal(err)
	}
	c, err := compare.Answer(found.Question)
	if err != nil {
		t.Fatal(err)
	}
	return found.Question.Operation, c
}

// A line says of a person what the list of calls of one operation says: with whom to agree,
// signatures, papers and the dollars as last elected.
func TestLineIsTheCallOfOneOperation(t *testing.T) {
	o, c := decided(t)
	said, dollars, order := map[string]string{}, map[string]string{}, []string{}
	for _, b := range worklist.OfCalls(c).Blocks {
		switch b := b.(type) {
		case report.Heading:
			if b.Level == 3 {
				order = append(order, b.Text)
			}
		case report.Grid:
			dollars[order[len(order)-1]] = b.Rows[0][1]
		case report.List:
			for _, p := range b {
				said[order[len(order)-1]] += p.Text + "\n"
			}
		}
	}
	all := Of("", "", c.CropYears[0], Owners(o), false)
	if len(all) != 5 || len(order) != 5 {
		t.Fatalf("%d lines and %d calls, want 5", len(all), len(order))
	}
	for i, l := range all {
		if l.Person != order[i] {
			t.Errorf("line %d is of %s, the call of %s", i, l.Person, order[i])
		}
		for _, sentence := range worklist.CallOf(c.CropYears[0], l.Person).Agree {
			if !strings.Contains(said[l.Person], sentence) || !strings.Contains(l.Texts[1], sentence) {
				t.Errorf("%s: %q is not in both:\n%s\n%s", l.Person, sentence, said[l.Person], l.Texts[1])
			}
		}
		if whole := fmt.Sprintf("$%s", grouped(l.MeanLastElected)); whole != dollars[l.Person] {
			t.Errorf("%s: %s as last elected, the call says %s", l.Person, l.MeanLastElected, dollars[l.Person])
		}
		if papers := l.Texts[5]; !strings.Contains(strings.ReplaceAll(said[l.Person], "Papers: ", ""), papers) {
			t.Errorf("%s: papers %q are not in %s", l.Person, papers, said[l.Person])
		}
		if r := l.Record(); len(r) != len(OperationColumns) || r[slices.Index(Columns, "phone")] != "" {
			t.Errorf("%s: %q", l.Person, r)
		}
	}
}

// grouped writes "12345.67" as whole dollars with a comma.
func grouped(text string) string {
	whole := fmt.Sprintf("%.0f", number(text))
	if n := len(whole); n > 3 {
		return whole[:n-3] + "," + whole[n-3:]
	}
	return whole
}

// Who owns an entity is named with the part.
func TestOwners(t *testing.T) {
	owners := Owners(farm.Operation{Producers: []farm.Producer{{ID: "bo"}, {ID: "home llc", Members: []farm.Member{{ID: "ann", Share: 0.6}, {ID: "bo", Share: 0.4}}}}})
	if got := owners("home llc"); got != "ann 60 percent, bo 40 percent" || owners("bo") != "" || owners("nobody") != "" {
		t.Errorf("%q, %q", got, owners("bo"))
	}
}

// Operators whom no row names are somebody else in each operation; a name that rows give is
// one person of a client, and another one of another client.
func TestPeopleAreToldApart(t *testing.T) {
	list := NewList(t.TempDir())
	defer list.Close()
	for _, l := range []Line{
		{Client: "a", Person: "operator", Operations: []string{"1"}, Unnamed: true}, {Client: "a", Person: "operator", Operations: []string{"2"}, Unnamed: true},
		{Client: "a", Person: "ann", Operations: []string{"1"}}, {Client: "a", Person: "ann", Operations: []string{"2"}}, {Client: "b", Person: "ann", Operations: []string{"1"}},
	} {
		if err := list.Add(l.Record()); err != nil {
			t.Fatal(err)
		}
	}
	var got []string
	if err := list.Each(func(r []string) error { got = append(got, strings.Join([]string{r[0], r[1], r[4]}, " ")); return nil }); err != nil {
		t.Fatal(err)
	}
	if want := []string{"a ann 1; 2", "a operator 1", "a operator 2", "b ann 1"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}
