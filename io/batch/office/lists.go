package office

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fencerow/io/batch/exceptions"
	"fencerow/io/batch/sorted"
	"fencerow/io/batch/summary"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// kindsByMark are the kinds of columns by the mark behind their head.
var kindsByMark = map[string]summary.Kind{"": summary.Text, "w": summary.Words, "n": summary.Count, "a": summary.Acres, "$": summary.Dollars, "p": summary.PerAcre, "%": summary.Part, "d": summary.Day, "y": summary.Year}

// columnsOf returns columns by their heads, each with the mark of its kind behind a colon,
// and behind that the most letters of a line: "phone:14", "what to do:w40".
func columnsOf(heads ...string) (all []summary.Column) {
	for _, head := range heads {
		head, mark, _ := strings.Cut(head, ":")
		kind := strings.TrimRight(mark, "0123456789")
		width, _ := strconv.Atoi(mark[len(kind):])
		all = append(all, summary.Column{Head: head, Kind: kindsByMark[kind], Width: width})
	}
	return all
}

// shown are heads of columns of a file, as columnsOf takes them. A column without one is not
// shown.
type shown map[string]string

// table returns lines of a file with those of its columns that are shown, in the order of
// the file.
func (h shown) table(lines []record) (t summary.Table) {
	if len(lines) == 0 {
		return t
	}
	var at []int
	for i, column := range lines[0].columns {
		if h[column] != "" {
			at = append(at, i)
			t.Columns = append(t.Columns, columnsOf(h[column])...)
		}
	}
	for _, line := range lines {
		row := make([]any, len(at))
		for i, place := range at {
			row[i] = line.cells[place]
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// withYear adds the crop year to what is shown, where several are.
func (s *Sums) withYear(h shown) shown {
	if s.severalYears() {
		h["crop_year"] = "crop year:y"
	}
	return h
}

// graveness puts the first column, a severity, into words.
func graveness(t summary.Table) summary.Table {
	for _, row := range t.Rows {
		row[0] = exceptions.Severity(answer.Severity(row[0].(string)))
	}
	return t
}

// exceptions are those of one farm each, the gravest and largest first.
func (s *Sums) exceptions() summary.Table {
	t := graveness(s.withYear(shown{"severity": "how grave:14", "client": "client", "operation": "operation", "farm": "farm", "county": "county", "crops": "crop:20",
		"words": "what is wrong, and what to do:w", "mean_after_limit": "dollars after limits:$", "code": "code"}).table(s.farms.lines))
	t.Name, t.Title = "Exceptions", "Exceptions by farm"
	t.Said = append(s.farms.cut("exceptions.csv"), "What stops a payment or a figure first, then the most dollars. What many farms have in the same words is on the next sheet.")
	t.Notes = []string{"Dollars after limits: what the farm averages " + wording.AfterLimit + ", with the programs that average most."}
	return t
}

// generally are exceptions that many farms have in the same words.
func (s *Sums) generally() summary.Table {
	t := graveness(s.withYear(shown{"severity": "how grave:14", "words": "what is to be known, and what to do:w90", "mean_after_limit": "dollars after limits:$", "farms": "farms:n", "code": "code"}).table(s.general.lines))
	t.Name, t.Title = "For many farms", "What holds for many farms alike"
	t.Said = []string{"These follow from the law, from prices and from county tables. Each stands once, with the number of farms that it holds for."}
	return t
}

// callList has a line for each person who signs.
func (s *Sums) callList() summary.Table {
	t := s.withYear(shown{"client": "client", "person": "person", "operations": "operations", "owners": "owned by", "farms": "farms:n", "base_acres": "base acres:a", "mean_after_limit": "dollars after limits:$", "mean_last_elected": "as last elected, dollars:$",
		"offices": "county offices and farms:w22", "must_agree": "who else must agree:w26", "leans": "how each crop leans:w34", "choices_typed": "choices, signatures and papers noted here:w30", "phone": "phone:14"}).table(s.calls.lines)
	noted := slices.IndexFunc(t.Columns, func(c summary.Column) bool { return c.Kind == summary.Words && strings.HasPrefix(c.Head, "choices") })
	for i, row := range t.Rows {
		row[noted] = notedHere(s.calls.lines[i])
	}
	t = withoutBlank(t, "owned by")
	t.Name, t.Title = "Calls", "Calls by signer"
	t.Said = append(s.calls.cut("calls.csv"), "Every person who signs, the most dollars first. To be paid, all with a share in a farm sign its contract.")
	t.Notes = []string{
		"Dollars after limits: what the person averages " + wording.AfterLimit + ", with the programs that average most, if all contracts are signed.",
		"A person of several operations has one payment limit in that column. As last elected, each operation has a limit of its own.",
		"Crops without a last election are not in the dollars as last elected (column left_out of calls.csv).",
		"Choices, signatures and papers are as people typed them. Phone numbers are left blank.",
	}
	return t
}

// notedHere says what of choices, signatures and papers people typed.
func notedHere(line record) string {
	choices, signatures, papers := line.of("choices_typed"), line.of("signatures"), line.of("papers")
	if choices == wording.NotRecorded && signatures == choices && papers == choices {
		return "Choices, signatures and papers: " + wording.NotRecorded + "."
	}
	return fmt.Sprintf("Choices: %s. Signatures: %s. Papers: %s.", choices, strings.TrimSuffix(signatures, "."), papers)
}

// withoutBlank leaves a column out where it holds nothing.
func withoutBlank(t summary.Table, head string) summary.Table {
	at := slices.IndexFunc(t.Columns, func(c summary.Column) bool { return c.Head == head })
	if at < 0 {
		return t
	}
	if slices.ContainsFunc(t.Rows, func(row []any) bool { return row[at] != "" }) {
		return t
	}
	t.Columns = slices.Delete(t.Columns, at, at+1)
	for i, row := range t.Rows {
		t.Rows[i] = slices.Delete(row, at, at+1)
	}
	return t
}

// ofOperations are the columns of operations.csv that are shown.
func (s *Sums) ofOperations(lines []sorted.Valued[record]) summary.Table {
	h := s.withYear(shown{"client": "client", "operation": "operation", "farms": "farms:n", "mean_after_limit": "average after limits, dollars:$", "bound": "most possible, dollars:$",
		"cost_of_limit": "the limit costs, dollars:$", "simplest_choice": "one program per crop:w", "simplest_mean_after_limit": "its average, dollars:$", "mean_after_limit_across": "with one limit across operations, dollars:$", "left_out": "left out:w"})
	t := h.table(linesOf(lines))
	at := slices.IndexFunc(t.Columns, func(c summary.Column) bool { return c.Head == "one program per crop" })
	for _, row := range t.Rows {
		row[at] = spacedChoice(row[at].(string))
	}
	return withoutBlank(t, "left out")
}

// spacedChoice writes a choice for people: "corn PLC, soybeans ARC-CO".
func spacedChoice(choice string) string {
	var words []string
	for _, one := range strings.Fields(choice) {
		crop, program, _ := strings.Cut(one, "=")
		words = append(words, cropName(crop)+" "+program)
	}
	return strings.Join(words, ", ")
}

func linesOf(all []sorted.Valued[record]) (lines []record) {
	for _, v := range all {
		lines = append(lines, v.Line)
	}
	return lines
}

func (s *Sums) operations() summary.Table {
	t := s.ofOperations(s.largest.Lines)
	t.Name, t.Said = "Operations", []string{fmt.Sprintf("The operations that average most %s, at most %s. All are in operations.csv.", wording.AfterLimit, counted(listed))}
	t.Notes = []string{"Most possible: no mix of PLC and ARC-CO averages more. One program per crop: the same program on every farm for each crop."}
	return t
}

func (s *Sums) limitedOperations() summary.Table {
	t := s.ofOperations(s.limited.Lines)
	t.Name, t.Title = "Limits by operation", "Operations that the payment limit costs something"
	t.Said = []string{"Those that it costs most come first."}
	return t
}

// ofPeople are the columns of people.csv that are shown.
func (s *Sums) ofPeople(lines []sorted.Valued[record]) summary.Table {
	h := s.withYear(shown{"client": "client", "operation": "operation", "person": "person", "mean": "average before limits, dollars:$", "mean_after_limit": "average after limits, dollars:$", "p10_after_limit": "1 in 10 is lower, dollars:$",
		"p50_after_limit": "half are lower, dollars:$", "chance_of_limit": "reaches the limit, part of outcomes:%", "payment_limit": "payment limit, dollars:$", "payment_not_before": "paid not before:d", "tax_year": "tax year:y", "left_out": "left out:w"})
	return withoutBlank(h.table(linesOf(lines)), "left out")
}

func (s *Sums) payees() summary.Table {
	t := s.ofPeople(s.people.Lines)
	t.Name, t.Said = "People", []string{fmt.Sprintf("The people who average most %s, by operation, at most %s. All are in people.csv.", wording.AfterLimit, counted(listed))}
	if s.left > 0 {
		t.Said = append(t.Said, fmt.Sprintf("The totals of %s people leave out farms whose rows were refused or lack a figure (column \"left out\").", counted(s.left)))
	}
	return t
}

func (s *Sums) limitedPeople() summary.Table {
	t := s.ofPeople(s.reached.Lines)
	t.Name, t.Title, t.Said = "Limits by person", "People who reach a payment limit", []string{"Those who reach it most often come first."}
	return t
}

func (s *Sums) severalOperations() summary.Table {
	t := s.withYear(shown{"client": "client", "operation": "operation", "person": "person", "mean_after_limit": "average after limits, dollars:$", "payment_limit": "payment limit, dollars:$", "operations": "operations:n",
		"mean_each_alone": "each operation alone, dollars:$", "mean_across": "one limit, dollars:$", "part_across": "of it for this operation, dollars:$", "chance_of_limit_across": "reaches the one limit, part of outcomes:%"}).table(linesOf(s.across.Lines))
	t.Name, t.Title = "Several operations", "People with a share in several operations of a client"
	t.Said = []string{"One payment limit holds for all of them. Those it takes most from come first."}
	t.Notes = []string{"Each operation alone: what all their operations pay on average, each with its own limit. One limit: what is left of that."}
	return t
}
