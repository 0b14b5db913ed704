package batch

import (
	"cmp"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"fencerow/io/batch/pages"
	"fencerow/io/show/page"
	"fencerow/sim/compare"
)

// pagesTogether is how many clients are answered on the same outcomes in memory: then they
// are made again, so that memory does not grow with counties.
const pagesTogether = 25

// client are the operations of one client.
type client struct {
	place      int // among the clients of the table
	name       string
	operations [][]item
}

// clientPages writes a page of each client into the folder pages, and returns how many. A
// client whose operations lie in several shares has its page from one of them. Pages that
// are there already stay.
func (o Options) clientPages(f folder, rows *orderedRows) (written int, err error) {
	full := o.Question
	full.Brief = false
	many := compare.NewMany(full)
	err = rows.eachClient(func(c client) error {
		path := filepath.Join(f.path, pagesFolder, pages.Name(c.place, c.name))
		if _, err := os.Stat(path); err == nil && o.Resume || !o.writesPage(c) {
			return nil
		}
		laid, err := pages.Answer(many, c.asked())
		if err != nil {
			return fmt.Errorf("page of %s: %w", c.name, err)
		}
		if laid == nil { // every row was refused
			return nil
		}
		if written++; written%pagesTogether == 0 {
			many = many.Anew()
		}
		return f.whole(path, func(w io.Writer) error { return page.Write(w, pages.Of(c.name, laid)) })
	})
	return written, err
}

// pagesFolder is where the pages of clients lie.
const pagesFolder = "pages"

// writesPage reports whether this share writes the page of a client.
func (o Options) writesPage(c client) bool {
	return o.Part == 0 || int(hashOf(c.name, "")%uint64(o.Parts)) == o.Part-1
}

// asked are the operations of a client as a page asks about them.
func (c client) asked() (all []pages.Asked) {
	for _, items := range c.operations {
		whole, _ := assembled(items)
		all = append(all, pages.Asked{Operation: whole, Named: slices.ContainsFunc(items, func(i item) bool { return i.Row.Producer != "" })})
	}
	return all
}

// eachClient calls do with each client, in rising order; an operation without a client is
// one by itself.
func (r *orderedRows) eachClient(do func(client) error) error {
	var now client
	end := func() error {
		if len(now.operations) == 0 {
			return nil
		}
		return do(now)
	}
	err := r.eachOperation(func(items []item) error {
		first := items[0].Row
		if len(now.operations) > 0 && first.Client != "" && now.operations[0][0].Row.Client == first.Client {
			now.operations = append(now.operations, items)
			return nil
		}
		if err := end(); err != nil {
			return err
		}
		now = client{place: now.place + 1, name: cmp.Or(first.Client, first.Operation), operations: [][]item{items}}
		return nil
	})
	if err != nil {
		return err
	}
	return end()
}
