package workbook

import (
	"bytes"
	"testing"

	"github.com/xuri/excelize/v2"

	"fencerow/io/show/report"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/explain"
	"fencerow/sim/invented/cases"
)

// testCase has six commodities, a farm with base in two counties, and irrigated base.
func testCase() answer.Question { return cases.SixCrops() }

// asked is a case with its comparison and workings.
type asked struct {
	comparison answer.Comparison
	Figures
}

func ask(t *testing.T, c answer.Question) asked {
	t.Helper()
	comparison, err := compare.Answer(c)
	if err != nil {
		t.Fatal(err)
	}
	a := asked{comparison: comparison}
	for _, y := range c.CropYears {
		w, err := explain.WorkingsOf(c, y)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := explain.CountyRowsOf(c, y)
		if err != nil {
			t.Fatal(err)
		}
		a.Workings, a.Rows = append(a.Workings, w), append(a.Rows, rows)
	}
	return a
}

func (a asked) pages() Pages {
	return Pages{Sources: report.OfSources(a.Workings)}
}

// workbook is the workbook of a case, as a program opens it.
func (a asked) workbook(t *testing.T) *excelize.File {
	t.Helper()
	var buffer bytes.Buffer
	if err := Write(&buffer, a.comparison, a.Figures, a.pages()); err != nil {
		t.Fatal(err)
	}
	return opened(t, buffer.Bytes())
}

func opened(t *testing.T, data []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}
