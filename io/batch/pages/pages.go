package pages

import (
	"fmt"
	"strings"

	"fencerow/io/read/farmtable"
	"fencerow/io/show/report"
	"fencerow/io/show/sheet"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
)

// Operation is one operation of a client.
type Operation struct {
	Name    string
	Answer  answer.Comparison
	Shared  []string // people with a share in other operations of the client too
	Refused []string // numbers of farms of which rows were refused
}

// Asked is one operation that is asked about.
type Asked struct {
	farmtable.Operation
	Named bool // its rows name producers: one name in two operations is one person
}

// Answer answers the operations of a client; one without rows that could be read is left
// out.
func Answer(many *compare.Many, all []Asked) (laid []Operation, err error) {
	operationsOf := map[string]int{}
	for _, o := range all {
		for _, p := range o.Farms.Producers {
			if o.Named {
				operationsOf[p.ID]++
			}
		}
	}
	for _, o := range all {
		if len(o.Farms.Farms) == 0 {
			continue
		}
		one := Operation{Name: o.Name}
		if one.Answer, err = many.Compare(o.Farms); err != nil {
			return nil, err
		}
		for _, p := range o.Farms.Producers {
			if o.Named && operationsOf[p.ID] > 1 {
				one.Shared = append(one.Shared, p.ID)
			}
		}
		farms := one.Answer.CropYears[0].Farms
		for _, f := range farms {
			if o.Incomplete[f.Farm] {
				one.Refused = append(one.Refused, wording.Farm(f.Farm, farms))
			}
		}
		laid = append(laid, one)
	}
	return laid, nil
}

// Of lays out the operations of a client, one after the other.
func Of(client string, operations []Operation) report.Report {
	var all []report.Block
	for i, o := range operations {
		if i > 0 {
			all = append(all, report.Sheet{})
		}
		blocks := sheet.Of(o.Answer, false).Blocks
		all = append(append(all, blocks[0]), report.Small(whose(client, o.Name)))
		for _, text := range []string{shared(o.Shared), refused(o.Refused)} {
			if text != "" {
				all = append(all, report.Text(text))
			}
		}
		all = append(all, blocks[1:]...)
	}
	return report.Report{Blocks: all}
}

// whose names client and operation, once where both have one name.
func whose(client, operation string) string {
	switch {
	case client == "" || client == operation:
		return operation + "."
	case operation == "":
		return client + "."
	}
	return fmt.Sprintf("%s, operation %s.", client, operation)
}

// shared says what a page leaves open about people of several operations.
func shared(people []string) string {
	if len(people) == 0 {
		return ""
	}
	have := "has"
	if len(people) > 1 {
		have = "have"
	}
	return fmt.Sprintf("%s %s a share in other operations of this client too. One payment limit holds for all of them. The dollars here apply it to this operation alone.", wording.Capital(wording.Joined(people)), have)
}

// refused says which farms lack rows.
func refused(farms []string) string {
	if len(farms) == 0 {
		return ""
	}
	return fmt.Sprintf("Rows of the table were refused, so figures of these farms are not whole: %s.", wording.Joined(farms))
}

// mostLetters is the most of a client's name that the name of a file has.
const mostLetters = 60

// Name is the name of a client's file: its place among the clients of the table, and of its
// name the letters and digits that any system takes. No two clients have one name.
func Name(place int, client string) string {
	words := strings.FieldsFunc(client, func(r rune) bool {
		return !(r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z')
	})
	name := strings.Join(append([]string{fmt.Sprintf("%05d", place)}, words...), "-")
	return strings.TrimRight(name[:min(len(name), mostLetters)], "-") + ".html"
}
