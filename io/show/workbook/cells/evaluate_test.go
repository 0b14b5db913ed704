package cells

import (
	"math"
	"strings"
	"testing"
)

// small is a sheet of numbers, a text and one formula, in B1.
func small(text string) []*Sheet {
	s, other := NewSheet("Here"), NewSheet("Over there")
	s.Add(Figure(MoneyFormat, 2), Cell{Formula: text}, Plain("text"))
	s.Add(Figure(MoneyFormat, 3))
	s.Add(Plain("text"), Plain(""), Plain(""))
	s.Add(Figure(MoneyFormat, 4))
	s.Names["lift"] = Place{s, 1, 1}
	other.Add(Figure(MoneyFormat, 5))
	return []*Sheet{s, other}
}

// By hand; A1 to A4 are 2, 3, a text and 4.
func TestSmallFormulas(t *testing.T) {
	for text, want := range map[string]float64{
		"1+2*3": 7, "(1+2)*3": 9, "8/2/2": 2, "7-2-1": 4, "A1*A2+A4": 10, "'Over there'!$A$1-$A$1": 3, "lift*0.5": 1,
		"SUM(A1:A4)": 9, "MIN(A1:A4,1)": 1, "MAX(A1:A4)": 4, "(SUM(A1:A4)-MIN(A1:A4)-MAX(A1:A4))/1": 3, "SUM($A$1:$A$2,'Over there'!$A$1:$A$1)": 10,
		"IF(A1>0,A2,9)": 3, "IF(0>A1,A2,9)": 9, "IF(A1>A1,1,0)": 0, "ROUND(2.345,2)": 2.35, "ROUND(A1*1.005,2)": 2.01, "D9": 0,
	} {
		sheets := small(text)
		found, err := Evaluate(sheets)
		if got := found.Number(Place{sheets[0], 2, 1}); err != nil || math.Abs(got-want) > 1e-12 {
			t.Errorf("%s is %v, %v, want %v", text, got, err, want)
		}
	}
	for text, want := range map[string]string{
		"1+A3": "#VALUE!", "C1+1": "#VALUE!", "1/0": "#DIV/0!", "B1": errCircle.Error(), "1+B1": errCircle.Error(), "NOW(A1)": "no function NOW",
		"(1": "not closed", "SUM(A1": "not closed", "MIN()": "has 0 arguments", "ROUND(1)": "1 arguments", "1 1": "left over", "raised": "not understood",
		"'Nowhere'!A1": "no sheet", "A0": "no place", "A1^2": "left over", "": "",
	} {
		_, err := Evaluate(small(text))
		if want != "" && (err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "'Here'!$B$1")) {
			t.Errorf("%s: %v, want %q", text, err, want)
		}
	}
}
