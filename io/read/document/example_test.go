package document_test

import (
	"fmt"

	"fencerow/io/read/document"
)

// A file of one's own kind is read key by key: every value knows its place, and all mistakes
// are reported at once.
func Example() {
	root, err := document.Parse("field.yaml", []byte("format: field/1\nname: north\nacres: many\ncolor: red\n"))
	if err != nil {
		fmt.Println(err)
		return
	}
	r := document.NewReader("field.yaml")
	name := ""
	if r.Format(root, "field/1") {
		r.Fields(root, "the field",
			document.Must("format", func(document.Node) {}),
			document.Must("name", func(v document.Node) { name, _ = r.Text(v, "the name") }),
			document.May("acres", func(v document.Node) { r.Number(v, "acres") }))
	}
	fmt.Println(name)
	fmt.Println(r.Err())
	// Output:
	// north
	// field.yaml line 3: acres is "many", not a number
	// field.yaml line 4: "color" is no key of the field
}

// A mistyped word: one letter in three may be wrong.
func ExampleNearest() {
	fmt.Printf("%q %q\n", document.Nearest("soybaens", []string{"corn", "soybeans"}, 3), document.Nearest("gold", []string{"corn", "soybeans"}, 3))
	// Output: "soybeans" ""
}
