package farmtable

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"fencerow/program/farm"
)

// ReadOperation reads the one operation of a table of farms to its end and closes it. A
// refused row is a mistake: an answer without it would be of another operation. yearAsked
// says that the crop year is named already, and no row has to. notes are those of
// Reader.Notes; the error is farm.Mistakes.
func ReadOperation(path string, rows *Reader, yearAsked bool) (o farm.Operation, notes []string, err error) {
	defer rows.Close()
	good, mistakes := oneOperation(path, rows)
	if !yearAsked {
		mistakes = append(mistakes, rows.CropYearBlank()...)
	}
	if len(mistakes) > 0 {
		return o, rows.Notes(), mistakes
	}
	found, refused := Assemble(good)
	for _, f := range refused {
		mistakes = append(mistakes, rows.Mistake(f))
	}
	if len(mistakes) > 0 {
		return o, rows.Notes(), mistakes
	}
	return found.Farms, rows.Notes(), nil
}

// oneOperation returns the rows of a table that describes one operation. It ends
// at the second: such a table may be of any length.
func oneOperation(path string, rows *Reader) (good []Row, mistakes farm.Mistakes) {
	type name struct{ client, operation string }
	first, begun := name{}, false
	for {
		row, refused, err := rows.Next()
		if err == io.EOF {
			break
		}
		if ofTable := (farm.Mistakes{}); errors.As(err, &ofTable) {
			return nil, append(withoutBlank(mistakes, ofTable), ofTable...)
		}
		this := name{row.Client, row.Operation}
		switch {
		case this.operation == "": // a row that could not be taken apart
		case !begun:
			first, begun = this, true
		case this != first:
			return nil, farm.Mistakes{{File: path, Line: row.Line, Value: row.Operation, Reason: fmt.Sprintf("the table holds several operations: %s and %s", named(first.client, first.operation), named(this.client, this.operation)), Hint: "use batch for a table of several; here keep the rows of one"}}
		}
		for _, f := range refused {
			mistakes = append(mistakes, rows.Mistake(f))
		}
		if len(refused) == 0 {
			good = append(good, row)
		}
	}
	if !begun {
		mistakes = append(mistakes, farm.Mistake{File: path, Reason: "the table has headings and no rows", Hint: "add one row per farm, tract and crop"})
	}
	return good, mistakes
}

// withoutBlank leaves out that a cell of a row is blank where the whole column is reported to be.
func withoutBlank(mistakes, ofTable farm.Mistakes) farm.Mistakes {
	return slices.DeleteFunc(mistakes, func(m farm.Mistake) bool {
		return m.Value == "" && slices.ContainsFunc(ofTable, func(t farm.Mistake) bool { return t.Column > 0 && t.Column == m.Column })
	})
}

// named shows an operation with its client, where that is another word.
func named(client, operation string) string {
	if client == "" || client == operation {
		return fmt.Sprintf("%q", operation)
	}
	return fmt.Sprintf("%q of %q", operation, client)
}
