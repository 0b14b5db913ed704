package compare

import (
	"math"

	"fencerow/sim/answer"
)

// AnswerUntil answers with as many scenarios as it takes for the standard error of every
// difference, USD per base acre, to be at most until. It begins with c.Draws and doubles
// them while they stay within most; progress is called after every round. worst is the
// largest standard error of the answer returned: above until where most did not do.
func AnswerUntil(c answer.Question, until float64, most int, progress func(draws int, worst float64)) (answer answer.Comparison, worst float64, err error) {
	for {
		if answer, err = Answer(c); err != nil {
			return answer, 0, err
		}
		worst = worstError(answer)
		progress(answer.Draws, worst)
		if worst <= until || 2*answer.Draws > most {
			return answer, worst, nil
		}
		c.Draws = 2 * answer.Draws
	}
}

// worstError returns the largest standard error of a difference, USD per base acre, 0
// for no difference.
func worstError(c answer.Comparison) float64 {
	worst := 0.0
	for _, y := range c.CropYears {
		for _, f := range y.Farms {
			for _, k := range f.Commodities {
				if k.Difference != nil {
					worst = math.Max(worst, float64(k.Difference.StandardError))
				}
			}
		}
	}
	return worst
}
