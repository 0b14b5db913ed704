package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"fencerow/io/file"
	"fencerow/io/show/report"
	"fencerow/io/show/summary"
	"fencerow/io/source"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/parallel"
)

// usualOperation is the name of the file that new writes where none is given.
const usualOperation = "farms.yaml"

func newNew() *cobra.Command {
	var q question
	var out, print string
	c := &cobra.Command{
		Use:   "new",
		Short: "write a first operation file by questions, and see its answer",
		Long: `Asks for what your farm record shows, one figure at a time. Then it writes an
operation file and compares PLC with ARC-CO. Six answers are enough: county, crop,
base acres, PLC yield, last election, share. Press Enter to skip what you do not
know. < goes back, ? explains. Answers can also be piped in, one to a line.

--record FILE (experimental) reads the text of a farm record, copied from its print
(FSA-156EZ). Every figure is shown with its page and line, so that you can confirm or
change it. What is not on the print is asked. No real print was at hand when this was
made. With --record - the text comes from standard input, and nothing can be asked.
` + exitHelp,
		Example: "  fencerow new\n  fencerow new --out farms.yaml < answers.txt\n  fencerow new --record record.txt",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			return work(func() error {
				parallel.Ahead(compare.Prepare) // while questions are asked
				return askedAndAnswered(c, &q, out, print)
			})
		},
	}
	q.addSettings(c)
	q.addDraws(c, answer.DefaultDraws)
	addForce(c, &q.force)
	c.Flags().StringVar(&out, "out", "", "the operation file to write (default: "+usualOperation+")")
	c.Flags().StringVar(&print, "record", "", "experimental: the text of a farm record, copied out of its print; - is standard input")
	return c
}

// askedAndAnswered asks, writes the file and answers it.
func askedAndAnswered(c *cobra.Command, q *question, out, print string) error {
	i := newInterview(c)
	asking, err := i.asking(print)
	if err != nil {
		return err
	}
	path, err := i.run(q.filesBeside(print), out, asking)
	if err != nil {
		return err
	}
	ask := func(asked answer.Question) (answer.Comparison, error) { return compare.Answer(asked) }
	if err := answered(c, []string{path}, q, ask, func(found answer.Comparison) report.Report { return summary.Of(found, false) }); err != nil {
		return err
	}
	i.say("", "To compare again, or after a change in the file: fencerow compare "+path)
	return nil
}

// interview asks the questions on a terminal, or of piped answers.
type interview struct {
	in       io.Reader
	answers  *bufio.Scanner
	talk     io.Writer
	patient  bool                       // a person answers: what is wrong is asked again
	line     int                        // of the answers, counted from 1
	skipping bool                       // the answers have ended
	lines    func() []source.FigureLine // to be shown before they are confirmed; nil: none
	shown    bool
}

// asker asks for what makes an operation file.
type asker interface {
	Question() (source.AskedQuestion, bool)
	Answer(text string) (understood string, fault *farm.Fault)
	Back() (typed string, ok bool)
	NotKnown() []string
	Operation() []byte
}

// newInterview reads answers from standard input.
func newInterview(c *cobra.Command) *interview {
	i := &interview{in: c.InOrStdin(), answers: bufio.NewScanner(c.InOrStdin()), talk: c.ErrOrStderr()}
	if in, ok := c.InOrStdin().(*os.File); ok {
		info, err := in.Stat()
		i.patient = err == nil && info.Mode()&os.ModeCharDevice != 0
	}
	return i
}

// say writes lines for people.
func (i *interview) say(lines ...string) {
	for _, line := range lines {
		fmt.Fprintln(i.talk, line)
	}
}

// run asks all questions, writes the file and returns its name. Nothing is written before
// all is answered.
func (i *interview) run(files *file.Run, out string, asking asker) (string, error) {
	if out != "" {
		if err := i.isFree(files, out); err != nil {
			return "", err
		}
	}
	i.say("From the farm record. Enter takes what is in brackets or skips, < goes back, ? explains.")
	for {
		question, more := asking.Question()
		if !more {
			break
		}
		if err := i.ask(asking, question); err != nil {
			return "", err
		}
	}
	for _, line := range asking.NotKnown() {
		i.say("Not known: " + line)
	}
	path, err := i.name(files, out)
	if err != nil {
		return "", err
	}
	return path, written(i.talk, files, path, func(w io.Writer) error {
		_, err := w.Write(asking.Operation())
		return err
	})
}

// ask puts one question and takes its answer.
func (i *interview) ask(asking asker, q source.AskedQuestion) error {
	if q.Confirms() {
		i.showLines()
	}
	offered := ""
	if q.Offered != "" {
		offered = " [" + q.Offered + "]"
	}
	fmt.Fprintf(i.talk, "%s%s: ", q.Words, offered)
	text, more := i.next()
	if !more && q.Offered == "" && !q.MaySkip {
		return farm.Mistakes{{File: "answers", Line: i.line + 1, Reason: "the answers end before: " + q.Words, Hint: "give an answer to each question, one to a line"}}
	}
	switch strings.TrimSpace(text) {
	case "?":
		i.say("  " + q.Help)
		return nil
	case "<", "back":
		if typed, ok := asking.Back(); ok && typed != "" {
			i.say("  It was: " + typed)
		}
		return nil
	}
	understood, fault := asking.Answer(text)
	if fault != nil && i.patient {
		i.say("  "+fault.Reason+".", "  "+fault.Hint+".")
		return nil
	}
	if fault != nil {
		return farm.Mistakes{{File: "answers", Line: i.line, Value: text, Reason: fault.Reason, Hint: fault.Hint}}
	}
	if understood != "" {
		i.say("  " + understood)
	}
	return nil
}

// next returns the next line of the answers; more is false where they have ended.
func (i *interview) next() (text string, more bool) {
	if !i.patient {
		defer fmt.Fprintln(i.talk) // a terminal shows the Enter itself
	}
	if i.skipping || !i.answers.Scan() {
		i.skipping = true
		return "", false
	}
	i.line++
	return i.answers.Text(), true
}

// name returns the name of the file to write: the one given, else the usual one, else the
// one that a person types because a file of that name is there.
func (i *interview) name(files *file.Run, out string) (string, error) {
	if out != "" {
		return out, nil
	}
	for path := usualOperation; ; {
		err := i.isFree(files, path)
		if err == nil || !i.patient {
			return path, err
		}
		i.say("  " + err.Error())
		fmt.Fprint(i.talk, "Another name for the file: ")
		text, more := i.next()
		if !more {
			return "", err
		}
		path = strings.TrimSpace(text)
	}
}

// isFree refuses a name that is none, that cannot be written, or under which a file is kept.
func (i *interview) isFree(files *file.Run, path string) error {
	if path == "" {
		return usageError{"the file has no name", "give one, such as " + usualOperation}
	}
	return files.Check(path)
}
