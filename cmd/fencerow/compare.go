package main

import (
	"cmp"
	"fmt"
	"os"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"

	"fencerow/io/show/report"
	"fencerow/io/show/terminal"
	"fencerow/program"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/parallel"
)

const exitHelp = `
Exit codes: 0 done; 1 a fault of the program; 2 wrong use; 3 the input is wrong.
Every mistake in a file is listed with its line; nothing is written then.`

func newCompare() *cobra.Command {
	var q question
	var until float64
	var withARCIC bool
	var criterion, tail, model string
	var out outputs
	var shown screen
	var last earlier
	c := &cobra.Command{
		Use:   "compare OPERATION",
		Short: "compare PLC and ARC-CO on every farm and crop",
		Long: `Reads an operation file (docs/formats.md) and compares PLC with ARC-CO on every
farm and crop. You see how often each pays more, by how much, and what all farms
add up to. It also says what must happen by when. --farm shows one farm in full.
--full prints everything. A table of farms (.csv, .xlsx or .parquet) works too, with
the headings of the FSA farm record or your own. Write - to read from standard input.
You can also type one farm: its county, and the crop, base acres and PLC yield of
each base. Keep the answer with --json > november.json. Next month --since
november.json says which leads and margins moved, and which input did it.
` + exitHelp,
		Example: "  fencerow compare --demo\n  fencerow compare operation.yaml --crop-year 2026,2027 --county-table county.xlsx\n  fencerow compare --county 99001 --base corn:120:171 --base soybeans:80:47",
		Args:    atMost(1, "one operation file"),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				if c.Flags().Changed("until") && !(until > 0) {
					return usageError{fmt.Sprintf("--until is %v", until), "give dollars per base acre above 0, such as 0.05"}
				}
				if err := cmp.Or(out.sheets.check(out.page, q.json, shown), last.check(out.sheets)); err != nil {
					return err
				}
				if err := out.sheets.cropYears(&q); err != nil {
					return err
				}
				if err := shown.check(q.json, out.sheets.sheet); err != nil {
					return err
				}
				criteria, err := criteriaOf(criterion)
				if err != nil {
					return err
				}
				if tail != string(answer.NormalTail) && tail != string(answer.StudentTTail) {
					return usageError{fmt.Sprintf("--tail is %q", tail), "give normal, or t for a stress"}
				}
				if model != string(answer.UsualOdds) && model != string(answer.PastHistory) {
					return usageError{fmt.Sprintf("--model is %q", model), "give odds, or history for a replay of past years"}
				}
				if model == string(answer.PastHistory) && c.Flags().Changed("until") {
					return usageError{"--model history does not go with --until", "there are few past years, and more outcomes add none: leave out one of the two"}
				}
				if model == string(answer.PastHistory) && tail == string(answer.StudentTTail) {
					return usageError{"--model history does not go with --tail t", "past years have their own extremes: leave out one of the two"}
				}
				ask := func(asked answer.Question) (answer.Comparison, error) {
					asked.Criteria, asked.Tail, asked.Model = criteria, answer.Tail(tail), answer.ModelName(model)
					asked.WithARCIC, asked.LeaveOutARCIC = withARCIC, out.sheets.sheet == forLender && !withARCIC
					return compared(c, asked, until)
				}
				collectLate(q.draws)
				parallel.Ahead(compare.Prepare) // while files are read
				whole := last.around(&q, ask, func(ask asking) asking { return out.after(c, &q, ask) })
				return answered(c, args, &q, shown.farmFirst(whole), func(found answer.Comparison) report.Report {
					if one, is := out.sheets.lay(found); is {
						return one
					}
					return shown.lay(found, out.changesOnly)
				})
			})
		},
	}
	q.addInput(c)
	q.addDraws(c, answer.DefaultDraws)
	c.Flags().StringVar(&criterion, "criterion", "", "look at the choices with the crop revenue: sure_amount, worst, wrong_pick, dominance, revenue (several with commas), or all")
	c.Flags().StringVar(&model, "model", string(answer.UsualOdds), "odds, or history: whole past crop years replayed")
	c.Flags().StringVar(&tail, "tail", string(answer.NormalTail), "normal, or t: a stress in which extreme prices and yields of one year come together more often")
	c.Flags().Float64Var(&until, "until", 0, "go on until every difference is exact to this many dollars per base acre")
	c.Flags().BoolVar(&withARCIC, "with-arc-ic", false, "let ARC-IC into the choices and totals where it can matter, even if not last elected")
	q.addTyped(c)
	q.addInsurance(c)
	out.sheets.withARCIC = &withARCIC
	shown.add(c)
	last.add(c)
	out.add(c)
	addForce(c, &q.force)
	return c
}

// firstCollection is how far the heap may grow before it is collected for the first time, as
// a percentage of the runtime's least heap (4 MB). With manyDraws outcomes and more a series
// takes a megabyte, and closeCollection holds the heap near what is in use.
const (
	firstCollection = 1000
	manyDraws       = 1 << 17
	closeCollection = 10
)

// collectLate lets most questions end without a garbage collection, which costs as much
// as a tenth of a small answer; from the first collection on the usual rule holds. A GOGC that
// is set wins.
func collectLate(draws int) {
	switch {
	case os.Getenv("GOGC") != "":
	case draws >= manyDraws:
		debug.SetGCPercent(closeCollection)
	default:
		usual := debug.SetGCPercent(firstCollection)
		first := new([64]byte) // nobody holds it: the first collection finds that
		runtime.AddCleanup(first, func(percent int) { debug.SetGCPercent(percent) }, usual)
	}
}

// criteriaOf reads --criterion.
func criteriaOf(text string) ([]answer.Criterion, error) {
	if text == "" {
		return nil, nil
	}
	criteria, err := answer.ParseCriteria(text)
	if err != nil {
		return nil, usageError{"--criterion: " + err.Error(), "it can be sure_amount, worst, wrong_pick, dominance, revenue, several with commas, or all"}
	}
	return criteria, nil
}

// Rounds of --until: the first number of draws where none is given, and the last
// that is tried.
const firstUntil, lastUntil = 1 << 12, 1 << 20

// compared answers once, or until the differences are exact enough.
func compared(c *cobra.Command, asked answer.Question, until float64) (answer.Comparison, error) {
	if !c.Flags().Changed("until") {
		return compare.Answer(asked)
	}
	if !c.Flags().Changed("draws") {
		asked.Draws = firstUntil
	}
	talk := c.ErrOrStderr()
	const whole = 100
	bar := terminal.NewProgress(talk, whole, "until every difference is exact to $"+program.Text(until, 2))
	comparison, worst, err := compare.AnswerUntil(asked, until, lastUntil, func(_ int, worst float64) {
		bar.Reach(int(whole * min(1, until/max(worst, until)))) // an error of twice the aim is half the way
	})
	bar.Done()
	if err == nil && worst > until {
		fmt.Fprintf(talk, "fencerow: note: after %d outcomes a difference is still exact to $%s a base acre only\n", comparison.Draws, program.Text(worst, 3))
	}
	return comparison, err
}
