package batch

import (
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"

	"fencerow/io/batch/calls"
	"fencerow/io/batch/exceptions"
	"fencerow/io/batch/insured"
	"fencerow/io/batch/names"
	"fencerow/io/read/farmtable"
	"fencerow/sim/compare"
)

// partResults are the lines that one part writes.
type partResults struct {
	results    []Result
	further    []furtherProgram
	insured    []insured.Line
	people     []Person
	operations []Operation
	farms      []Farm
	calls      []calls.Line
	exceptions []exceptions.Line
	shared     exceptions.Shared // those that many farms have
	refused    []farmtable.Refusal
	counts     Counts
}

// worker makes parts one after the other, in the same memory.
type worker struct {
	part   partResults
	packed *packed // of all workers
}

// begin forgets the lines of the part before.
func (b *partResults) begin() {
	clear(b.results) // what they point to
	clear(b.people)
	clear(b.farms)
	clear(b.operations)
	clear(b.calls)
	*b = partResults{results: b.results[:0], people: b.people[:0], operations: b.operations[:0], farms: b.farms[:0], calls: b.calls[:0], exceptions: b.exceptions[:0], shared: exceptions.Shared{}}
}

// part makes one part, or returns the counts of one that is there already.
func (o *orderedRows) part(f folder, j job, across *across, w *worker) (Counts, error) {
	if o.Resume && f.done(j.part) {
		return f.counts(j.part)
	}
	many, labels := o.many.Anew(), names.New(f.share, j.part, o.Mask, o.Question.Counties) // new scenarios for each part, so that memory does not grow
	b := &w.part
	b.begin()
	for _, items := range j.operations {
		if err := b.operation(many, labels, items, across); err != nil {
			return Counts{}, fmt.Errorf("part %d: %w", j.part, err)
		}
	}
	b.exceptions = append(b.exceptions, b.shared.Lines()...)
	slices.SortStableFunc(b.refused, func(a, b farmtable.Refusal) int { return a.Line - b.Line })
	b.counts.Results = len(b.results)
	if err := f.whole(f.file("counts", ".json", j.part), func(w io.Writer) error { return json.NewEncoder(w).Encode(b.counts) }); err != nil {
		return Counts{}, err
	}
	return b.counts, f.write(j.part, *b, w.packed)
}

// counts reads the counts of a part made before.
func (f folder) counts(part int) (c Counts, err error) {
	text, err := os.ReadFile(f.file("counts", ".json", part))
	if err == nil {
		err = json.Unmarshal(text, &c)
	}
	return c, err
}

// assembled returns the operation that the good rows make, and what is wrong with the
// others.
func assembled(items []item) (farmtable.Operation, []farmtable.Refusal) {
	rows := make([]farmtable.Row, 0, len(items))
	var refused []farmtable.Refusal
	incomplete := map[string]bool{}
	for _, i := range items {
		if len(i.Refused) > 0 {
			refused = append(refused, i.Refused...)
			incomplete[i.Row.FarmKey()] = true
			continue
		}
		rows = append(rows, i.Row)
	}
	whole, misfits := farmtable.Assemble(rows, slices.Collect(maps.Keys(incomplete))...)
	return whole, append(refused, misfits...)
}

// operation answers one operation and adds its lines.
func (b *partResults) operation(many *compare.Many, labels names.Labels, items []item, across *across) error {
	assembled, refused := assembled(items)
	b.refused = append(b.refused, refused...)
	lines := map[int]bool{}
	for _, r := range refused {
		lines[r.Line] = true
	}
	b.counts.add(Counts{Rows: len(items), Refused: len(lines), Answered: len(items) - len(lines)})
	if len(assembled.Farms.Farms) == 0 {
		return nil
	}
	compared, err := many.CompareAcross(assembled.Farms, across.of(items[0].Row.Client))
	if err == nil {
		err = across.err()
	}
	if err != nil {
		return fmt.Errorf("operation of row %d: %w", items[0].Row.Line, err)
	}
	client, name := items[0].Row.Client, items[0].Row.Operation
	results, further, people := resultsOf(client, name, compared, assembled.Incomplete, labels)
	b.results, b.further, b.people = append(b.results, results...), append(b.further, further...), append(b.people, people...)
	b.insured = append(b.insured, insured.Of(client, name, compared, assembled.Incomplete, labels)...)
	b.farms = append(b.farms, farmsOf(client, name, compared, assembled.Incomplete, labels)...)
	b.operations = append(b.operations, operationsOf(client, name, compared, assembled.Incomplete, labels)...)
	unnamed := !slices.ContainsFunc(items, func(i item) bool { return i.Row.Producer != "" })
	b.lists(client, name, compared, assembled, results, unnamed, labels)
	b.counts.add(Counts{Operations: 1, Farms: len(assembled.Farms.Farms)})
	return nil
}
