package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"fencerow/io/batch"
	"fencerow/io/disk"
	"fencerow/io/file"
	"fencerow/io/show/report"
	"fencerow/io/show/terminal"
	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

func newBatchDiff() *cobra.Command {
	var o batch.DiffOptions
	var out string
	var asJSON bool
	var q question // for --force
	c := &cobra.Command{
		Use:   "diff BEFORE AFTER",
		Short: "compare two runs of batch: which leads flipped, and which input did it",
		Long: `Reads two folders that batch wrote, and finds every farm, crop and crop year that
moved. It asks the first run's question again, each time with one kind of input of
the second run. The kinds are prices, county yields, the farm's record, and the day
and settings. A flipped lead is put down to the one kind that alone flips it, else
to several together. Prices, county yields and law are kept in the folders. The
tables of farms are read from where they lay.
` + exitHelp,
		Example: "  fencerow batch diff october november\n  fencerow batch diff october november --out diff.csv --before-table october.csv",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) != 2 {
				return usageError{fmt.Sprintf("batch diff takes two folders, not %d", len(args)), "name the folder of the earlier run, then that of the later one"}
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				o.Files, o.Tables, o.Before, o.After = disk.Files{}, disk.Tables{}, args[0], args[1]
				found, err := batchDiff(c.ErrOrStderr(), o, out, q.force)
				if err != nil {
					return err
				}
				if asJSON {
					return printJSON(c.OutOrStdout(), found)
				}
				return terminal.Write(c.OutOrStdout(), reportOfDiff(found))
			})
		},
	}
	c.Flags().StringVar(&out, "out", "", "write every line that moved to this .csv file")
	addForce(c, &q.force)
	c.Flags().StringVar(&o.BeforeTable, "before-table", "", "where the table of the first run lies now (default: where it lay)")
	c.Flags().StringVar(&o.AfterTable, "after-table", "", "where the table of the second run lies now (default: where it lay)")
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON (docs/formats.md)")
	return c
}

// batchDiff compares two runs and writes their lines, where a file is named.
func batchDiff(talk io.Writer, o batch.DiffOptions, out string, force bool) (found batch.Difference, err error) {
	if out == "" {
		return batch.Diff(o, io.Discard)
	}
	files := file.NewRun(o.Reads()...).Keep(!force)
	if err := files.Check(out); err != nil {
		return found, err
	}
	err = written(talk, files, out, func(w io.Writer) (err error) {
		found, err = batch.Diff(o, w)
		return err
	})
	return found, err
}

// kindWords are the kinds of inputs in words.
var kindWords = map[answer.Cause]string{
	answer.CausePrice: "national prices", answer.CauseCounty: "county yields", answer.CauseLaw: "law", answer.CauseProgram: "version of fencerow",
	answer.CauseRecord: "farm record", answer.CauseSettings: "day or settings of the run", answer.CauseJoint: "several together",
}

// reportOfDiff lays the difference of two runs out for a terminal.
func reportOfDiff(d batch.Difference) report.Report {
	blocks := []report.Block{
		report.Heading{Level: 2, Text: "What moved between two runs"},
		report.Text(fmt.Sprintf("Before: %s, made %s with prices of %s.", d.Before.Folder, wording.Date(d.Before.Today), wording.Date(d.Before.Market))),
		report.Text(fmt.Sprintf("After: %s, made %s with prices of %s.", d.After.Folder, wording.Date(d.After.Today), wording.Date(d.After.Market))),
		report.Text(fmt.Sprintf("%s lines (farm, crop and crop year) are in both runs. %s moved, and %s of them have another lead.", count(d.InBoth), count(d.Moved), count(d.Flipped))),
	}
	if only := d.OnlyOne; only[0]+only[1] > 0 {
		blocks = append(blocks, report.Text(fmt.Sprintf("%s lines are in the first run alone, %s in the second alone. They are counted nowhere below.", count(only[0]), count(only[1]))))
	}
	if d.Moved > 0 {
		blocks = append(blocks, causesOf(d), report.Text("Dollars: how far ARC-CO less PLC moved, on all base acres, before share and limit. A minus is toward PLC."),
			report.Heading{Level: 2, Text: "What moved most"}, largestOf(d))
		for _, line := range d.Largest {
			blocks = append(blocks, report.Text(fmt.Sprintf("%s %s %d: %s.", line.Farm, crop.Commodity(line.Commodity).Name(), line.CropYear, line.Changed)))
		}
	}
	for _, k := range d.Inputs {
		if k == answer.CauseLaw || k == answer.CauseProgram {
			blocks = append(blocks, report.Text("The runs are of two versions of fencerow. This version asks every question with its own law. A lead that the version alone flips has that cause. Where it moves a line without that, a flip has several causes together."))
			break
		}
	}
	return report.Report{Blocks: blocks}
}

func causesOf(d batch.Difference) report.Table {
	t := report.Table{Columns: []string{"cause", "leads flipped", "lines moved", "dollars"}}
	for _, c := range d.Causes {
		t.Rows = append(t.Rows, []string{kindWords[c.Cause], count(c.Flipped), count(c.Moved), wording.Whole(&c.USD)})
	}
	t.Rows = append(t.Rows, []string{"all", count(d.Flipped), count(d.Moved), wording.Whole(&d.USD)})
	return t
}

func largestOf(d batch.Difference) report.Table {
	t := report.Table{Columns: []string{"farm", "crop", "year", "lead before", "after", "dollars", "cause"}}
	for _, line := range d.Largest {
		t.Rows = append(t.Rows, []string{line.Farm, crop.Commodity(line.Commodity).Name(), fmt.Sprint(line.CropYear), wording.Leads(answer.Leader(line.Before.Lead)), wording.Leads(answer.Leader(line.After.Lead)),
			wording.Whole(line.Moved), kindWords[line.Cause]})
	}
	return t
}

// count writes a number of lines.
func count(n int) string { return wording.Grouped(float64(n), 0) }
