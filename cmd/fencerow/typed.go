package main

import (
	"io"

	"github.com/spf13/cobra"

	"fencerow/sim/answer"
)

// typedName stands for the flags where a mistake names its file.
const typedName = "the flags"

// addTyped adds the flags that say one farm without a file.
func (q *question) addTyped(c *cobra.Command) {
	c.Flags().StringVar(&q.typed.County, "county", "", "the county of one farm, instead of a file: its five digits, or name and State")
	c.Flags().StringArrayVar(&q.typed.Bases, "base", nil, "a base of that farm: crop, base acres and PLC yield, as corn:120:171; with an irrigated share corn:120:171@0.35; may be repeated")
	c.Flags().StringVar(&q.typed.Share, "share", "", "your share of all its base, as 0.5 (default: all of it)")
	c.Flags().StringVar(&q.save, "save", "", "write the operation file that these flags stand for")
}

// typedCase returns the case of the farm in the flags, and writes its file where that is
// wanted: only when all of it can be read.
func (q *question) typedCase(c *cobra.Command, args []string) (answer.Question, error) {
	if q.demo || len(args) > 0 {
		return answer.Question{}, usageError{"--county, --base, --share and --save type one farm", "leave out the file and --demo, or these flags"}
	}
	text, err := q.typed.Operation()
	if err != nil {
		return answer.Question{}, err
	}
	r, err := q.request(c)
	if err != nil {
		return answer.Question{}, err
	}
	r.Operation, r.OperationText = typedName, text
	found, err := q.found(c, r)
	if err == nil {
		err = q.checkInsurance(found.Question.Operation)
	}
	if err != nil || q.save == "" {
		return found.Question, err
	}
	files := q.files(q.inputs)
	if err := files.Check(q.save); err != nil {
		return answer.Question{}, err
	}
	return found.Question, written(c.ErrOrStderr(), files, q.save, func(w io.Writer) error {
		_, err := w.Write(text)
		return err
	})
}
