package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"fencerow/sim/answer"
)

// mostDraws is the most scenarios: a typing mistake must not fill the memory.
const mostDraws = 1 << 24

// addSampling adds the flags of every verb that makes scenarios, draws of them where no number
// is given.
func (q *question) addSampling(c *cobra.Command, draws int, what string) {
	q.hasScenarios = true
	c.Flags().Uint64Var(&q.seed, "seed", 1, "the same seed gives the same figures")
	c.Flags().IntVar(&q.draws, "draws", draws, what+" (rounded up to 16 times a power of two)")
}

// addDraws adds the flags of the verbs that compare programs over scenarios.
func (q *question) addDraws(c *cobra.Command, draws int) {
	q.addSampling(c, draws, "how many outcomes to try; more is slower and steadier")
	c.Flags().Float64Var(&q.close, "close", answer.DefaultCloseMargin, "call programs close when they average less than this apart, in dollars per base acre")
}

// checkDraws refuses numbers of scenarios that cannot be made, before a file is opened.
func (q *question) checkDraws() error {
	switch {
	case !q.hasScenarios:
	case q.draws < 1 || q.draws > mostDraws:
		return usageError{fmt.Sprintf("--draws is %d", q.draws), fmt.Sprintf("give a number from 1 to %d", mostDraws)}
	case !isAmount(q.close):
		return usageError{fmt.Sprintf("--close is %v", q.close), "give dollars per base acre, 0 or more, such as 5"}
	}
	return nil
}

// isAmount reports whether x is a figure from 0 on.
func isAmount(x float64) bool { return x >= 0 && !math.IsInf(x, 1) }
