package main

import (
	"io/fs"

	"github.com/spf13/cobra"

	"fencerow/io/since"
	"fencerow/io/source"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// earlier is the answer that today's is compared with.
type earlier struct {
	path string // "": none
}

func (e *earlier) add(c *cobra.Command) {
	c.Flags().StringVar(&e.path, "since", "", "say what changed since an earlier answer about these farms: a file that compare --json printed")
}

// check refuses sheets that do not show what changed.
func (e *earlier) check(s sheets) error {
	if e.path != "" && (s.sheet != "" || s.people != "") {
		return usageError{"--since does not go with --sheet or --people", "leave out one of the two: what changed stands on the page of all farms"}
	}
	return nil
}

// read reads the earlier answer, nil where none is asked for. No output is written over it.
func (e *earlier) read(q *question) (*since.Last, error) {
	if e.path == "" {
		return nil, nil
	}
	text, err := fs.ReadFile(q.disk(), e.path)
	if err != nil {
		return nil, farm.Mistakes{{File: e.path, Reason: "cannot be read: " + err.Error(), Hint: "name a file that fencerow compare --json printed"}}
	}
	q.inputs = append(q.inputs, source.Input{What: "earlier answer", Name: e.path})
	return since.Read(e.path, text)
}

// around asks in the middle of compare's work: it reads the earlier answer before any file
// is written, adds what changed since to the answer, and keeps the inputs where the answer
// is printed as JSON.
func (e *earlier) around(q *question, ask asking, then func(asking) asking) asking {
	return func(asked answer.Question) (answer.Comparison, error) {
		last, err := e.read(q)
		if err != nil {
			return answer.Comparison{}, err
		}
		return then(func(asked answer.Question) (found answer.Comparison, err error) {
			if found, err = ask(asked); err == nil && last != nil {
				found.Since, err = last.Compared(asked, found, version)
			}
			if err == nil && q.json {
				found.Inputs, err = since.Keep(asked, version)
			}
			return found, err
		})(asked)
	}
}

// asking answers a question.
type asking = func(answer.Question) (answer.Comparison, error)
