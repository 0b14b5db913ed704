// Package elect finds elections: the program of each commodity on each farm that
// averages most after payment limits, and how far that can be from the best there is.
//
// It knows series of payments by scenario, the attribution of payments to people and
// what sequestration withholds; it knows no farm, no commodity and no rule of a
// program, and draws nothing. Two questions:
//
//   - A whole operation under limits: start reading at Operation.Best. Every choice is
//     tried where they are few; else supergradient ascent over a relaxation (shares of
//     programs) gives cutting planes and an upper bound, and local search from good
//     starts gives the choice (Bertsekas, Nonlinear Programming, chapter 6, for the
//     method; the bound of this problem is derived in docs/method.md).
//   - One farm without limits, very many times: every choice with its mean and exact
//     percentiles. Start reading at Workspace.EveryChoice; the readable form is in farm_test.go.
package elect
