package calls

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/io/show/worklist"
	"fencerow/program"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Line is one person who signs, in one crop year: in one operation, or in all of a client.
type Line struct {
	Client, Person, CropYear string
	Owners                   string   // of an entity, as far as they are known
	Operations               []string // that name the person
	Farms, Bases             int      // Bases: farms and crops
	Acres                    float64  // base acres, of all shares
	MeanAfterLimit           float64  // USD to the person with the choices that average most, all operations together with one limit
	MeanLastElected          string   // USD likewise as last elected, each operation with a limit of its own; "" where a part is not known
	ChanceOfLimit            float64  // of the first
	Unnamed                  bool     // no row names the person: the same name in another operation is somebody else
	Texts                    [len(textColumns)]string
}

// textColumns are what a line says in words, by operation.
var textColumns = [...]string{"offices", "must_agree", "leans", "choices_typed", "signatures", "papers", "left_out"}

// Columns are the heads of calls.csv.
var Columns = slices.Concat(strings.Fields("client person crop_year owners operations farms bases base_acres mean_after_limit mean_last_elected chance_of_limit"), textColumns[:], []string{"phone"})

// OperationColumns are those of a line that is not joined yet.
var OperationColumns = append(slices.Clip(Columns), "unnamed")

// Record returns a line for a file of OperationColumns. The place for a phone number is
// blank.
func (l Line) Record() []string {
	r := []string{l.Client, l.Person, l.CropYear, l.Owners, strings.Join(l.Operations, "; "), strconv.Itoa(l.Farms), strconv.Itoa(l.Bases), program.Text(l.Acres, 2),
		program.Text(l.MeanAfterLimit, 2), l.MeanLastElected, program.Text(l.ChanceOfLimit, 6)}
	return append(append(r, l.Texts[:]...), "", strconv.FormatBool(l.Unnamed))
}

// parse reads a line that Record returned.
func parse(r []string) Line {
	l := Line{Client: r[0], Person: r[1], CropYear: r[2], Owners: r[3], Operations: []string{r[4]}, MeanLastElected: r[9]}
	l.Farms, _ = strconv.Atoi(r[5])
	l.Bases, _ = strconv.Atoi(r[6])
	l.Acres, l.MeanAfterLimit, l.ChanceOfLimit = number(r[7]), number(r[8]), number(r[10])
	copy(l.Texts[:], r[11:])
	l.Unnamed = len(r) > len(Columns) && r[len(Columns)] == "true"
	return l
}

func number(text string) float64 { x, _ := strconv.ParseFloat(text, 64); return x }

// Of returns a line for each person who signs in an operation, in the order of the answer.
// owners says who owns an entity, "" for a person; unnamed says that no row names anybody.
func Of(client, operation string, y answer.YearPart, owners func(id string) string, unnamed bool) (all []Line) {
	for _, id := range signers(y) {
		l := of(client, operation, y, id)
		l.Owners, l.Unnamed = owners(id), unnamed
		all = append(all, l)
	}
	return all
}

// signers are the producers with a share in a base, in the order of the answer.
func signers(y answer.YearPart) (ids []string) {
	seen := map[string]bool{}
	for _, l := range y.Standing.Lines {
		for _, s := range l.Signers {
			if !seen[s.ID] {
				seen[s.ID], ids = true, append(ids, s.ID)
			}
		}
	}
	return ids
}

func of(client, operation string, y answer.YearPart, id string) Line {
	call := worklist.CallOf(y, id)
	l := Line{Client: client, Person: id, CropYear: strconv.Itoa(y.CropYear), Operations: []string{operation}, Bases: len(call.Lines)}
	farms := map[string]bool{}
	for _, line := range call.Lines {
		farms[line.Farm] = true
		l.Acres += float64(line.BaseAcres)
	}
	l.Farms = len(farms)
	for _, p := range y.Operation.ByPerson {
		if p.ID == id {
			l.MeanAfterLimit, l.ChanceOfLimit = float64(p.MeanAfterLimit), float64(p.ChanceOfLimit)
			if p.Across != nil {
				l.MeanAfterLimit, l.ChanceOfLimit = float64(p.Across.MeanAfterLimit), float64(p.Across.ChanceOfLimit)
			}
		}
	}
	last := y.Operation.UnderElections(answer.LastElected)
	if last != nil {
		for _, p := range last.ByPerson {
			if p.ID == id {
				l.MeanLastElected = program.Text(float64(p.MeanAfterLimit), 2)
			}
		}
	}
	papers, signed := strings.TrimSuffix(strings.TrimPrefix(call.Papers, "Papers: "), "."), strings.Join(call.Signed, " ")
	if !anySignature(call.Lines, id) {
		signed = wording.NotRecorded
	}
	l.Texts = [...]string{offices(y, call.Lines), strings.Join(call.Agree, " "), leans(y, call.Lines), typed(y, call.Lines), signed, papers, left(y, call.Lines, last)}
	return l
}

// anySignature reports whether something is noted of a person's signatures.
func anySignature(lines []answer.StandingLine, id string) bool {
	return slices.ContainsFunc(lines, func(l answer.StandingLine) bool {
		return slices.ContainsFunc(l.Signers, func(s answer.Signer) bool { return s.ID == id && wording.Signed(s) != wording.NotRecorded })
	})
}

// offices says which county offices keep the records of the farms.
func offices(y answer.YearPart, lines []answer.StandingLine) string {
	return byGroup(lines, func(l answer.StandingLine) string {
		code, _, _ := strings.Cut(l.Farm, "-")
		return worklist.OfficeName(y, code)
	}, func(office string, of []answer.StandingLine) string { return office + ": " + farmsOf(y, of) }, "; ")
}

// leans says how each crop leans, and on which farms.
func leans(y answer.YearPart, lines []answer.StandingLine) string {
	return byGroup(lines, func(l answer.StandingLine) string { return l.Commodity.Name() + ": " + leaning(l.Leader) }, func(words string, of []answer.StandingLine) string {
		acres := 0.0
		for _, l := range of {
			acres += float64(l.BaseAcres)
		}
		return wording.Capital(fmt.Sprintf("%s on %s (%s base acres).", words, farmsOf(y, of), wording.Grouped(acres, 0)))
	}, " ")
}

// leaning is a lead in words.
func leaning(l answer.Leader) string {
	switch words := wording.Leads(l); l {
	case answer.LeadsPLC, answer.LeadsARCCO:
		return "leans " + words
	case answer.Close, answer.LittleChance:
		return words
	}
	return "no figures"
}

// typed says which choices people typed.
func typed(y answer.YearPart, lines []answer.StandingLine) string {
	noted := slices.DeleteFunc(slices.Clone(lines), func(l answer.StandingLine) bool { return l.Typed == nil })
	if len(noted) == 0 {
		return wording.NotRecorded
	}
	said := byGroup(noted, func(l answer.StandingLine) string { return l.Commodity.Name() + " " + string(*l.Typed) }, func(words string, of []answer.StandingLine) string { return words + " on " + farmsOf(y, of) }, "; ")
	if blank := len(lines) - len(noted); blank > 0 {
		said += fmt.Sprintf("; none typed for %d of %d farms and crops", blank, len(lines))
	}
	return said
}

// left names the farms and crops that are in no total: those without figures, and those
// without a last election.
func left(y answer.YearPart, lines []answer.StandingLine, last *answer.UnderPart) string {
	without := func(names []string) (of []answer.StandingLine) {
		for _, l := range lines {
			if slices.Contains(names, l.Farm+" "+string(l.Commodity)) {
				of = append(of, l)
			}
		}
		return of
	}
	name := func(l answer.StandingLine) string { return l.Commodity.Name() }
	list := func(name string, of []answer.StandingLine) string { return name + " on " + farmsOf(y, of) }
	var said []string
	if of := without(y.Operation.LeftOut); len(of) > 0 {
		said = append(said, "no figures: "+byGroup(of, name, list, "; "))
	}
	if last != nil {
		if of := without(last.LeftOut); len(of) > 0 {
			said = append(said, "not in the dollars as last elected: "+byGroup(of, name, list, "; "))
		}
	}
	return strings.Join(said, "; ")
}

// byGroup joins what is said of each group of lines.
func byGroup(lines []answer.StandingLine, group func(answer.StandingLine) string, say func(string, []answer.StandingLine) string, between string) string {
	return strings.Join(worklist.ByGroup(lines, group, say), between)
}

// mostNamed is the most farms that a cell names one by one.
const mostNamed = 12

// farmsOf names the farms of some lines, or counts them.
func farmsOf(y answer.YearPart, lines []answer.StandingLine) string {
	numbers := worklist.FarmNumbers(y, lines)
	if len(numbers) > mostNamed {
		return fmt.Sprintf("%d farms", len(numbers))
	}
	return wording.Joined(numbers)
}

// Owners says who owns an entity of an operation, and by what part.
func Owners(o farm.Operation) func(id string) string {
	return func(id string) string {
		for _, p := range o.Producers {
			if p.ID != id || len(p.Members) == 0 {
				continue
			}
			var said []string
			for _, m := range p.Members {
				said = append(said, m.ID+" "+wording.Percent(answer.Chance(m.Share)))
			}
			return strings.Join(said, ", ")
		}
		return ""
	}
}
