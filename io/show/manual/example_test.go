package manual_test

import (
	"fmt"
	"os"

	"fencerow/io/show/manual"
)

// A page of one option. The hyphen of an option is escaped, so that it stays one on paper.
func Example() {
	p := manual.Page{Name: "acres", Section: "1", Date: "2026-12-01", Release: "acres 1.0", Short: "add acres up", Parts: []manual.Part{
		{Heading: "options", Items: []manual.Item{{Name: "--round", Text: "print whole acres"}}},
	}}
	fmt.Println(p.File())
	if err := p.Write(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// acres.1
	// .TH "ACRES" "1" "2026\-12\-01" "acres 1.0"
	// .nh
	// .ad l
	// .SH NAME
	// acres \- add acres up
	// .SH OPTIONS
	// .TP
	// \fB\-\-round\fR
	// print whole acres
}
