package answer

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"

	"fencerow/program/farm"
)

// ByProgram holds figures by program in the order in which they are shown: PLC, ARC-CO,
// then others. Go through the list rather than ask for two programs: then a further one
// is shown without a change.
type ByProgram[T any] []OneProgram[T]

// OneProgram is the figures of one program, nil where one that they need is missing.
type OneProgram[T any] struct {
	Program farm.Program
	Figures *T
}

// Of returns the figures of a program, nil where they are missing or it is not listed.
func (b ByProgram[T]) Of(p farm.Program) *T {
	if i := b.place(p); i >= 0 {
		return b[i].Figures
	}
	return nil
}

// Any reports whether a program has figures.
func (b ByProgram[T]) Any() bool {
	return slices.ContainsFunc(b, func(one OneProgram[T]) bool { return one.Figures != nil })
}

func (b ByProgram[T]) place(p farm.Program) int {
	return slices.IndexFunc(b, func(one OneProgram[T]) bool { return one.Program == p })
}

// beside returns the list with PLC and ARC-CO first, present even where they are not in
// it.
func (b ByProgram[T]) beside() ByProgram[T] {
	all := ByProgram[T]{{farm.PLC, b.Of(farm.PLC)}, {farm.ARCCO, b.Of(farm.ARCCO)}}
	for _, one := range b {
		if all.place(one.Program) < 0 {
			all = append(all, one)
		}
	}
	return all
}

// MarshalJSON writes an object by program: PLC and ARC-CO always, further programs in
// the order of the list; null where a figure is missing.
func (b ByProgram[T]) MarshalJSON() ([]byte, error) {
	var out bytes.Buffer
	to := json.NewEncoder(&out)
	to.SetEscapeHTML(false) // escaping is for whoever writes the whole answer
	for i, one := range b.beside() {
		out.WriteByte("{,"[min(i, 1)])
		if err := to.Encode(one.Program); err != nil {
			return nil, err
		}
		out.WriteByte(':')
		if err := to.Encode(one.Figures); err != nil {
			return nil, err
		}
	}
	out.WriteByte('}')
	return out.Bytes(), nil
}

// UnmarshalJSON reads such an object, keeping the order of its keys. It refuses what is
// no object and a program that stands twice.
func (b *ByProgram[T]) UnmarshalJSON(text []byte) error {
	in := json.NewDecoder(bytes.NewReader(text))
	if start, err := in.Token(); err != nil || start != json.Delim('{') {
		return fmt.Errorf("figures by program: want an object with program keys, have %.40s", text)
	}
	*b = nil
	for in.More() {
		key, err := in.Token()
		if err != nil {
			return err
		}
		one := OneProgram[T]{Program: farm.Program(key.(string))}
		if b.place(one.Program) >= 0 {
			return fmt.Errorf("figures by program: %s stands twice", one.Program)
		}
		if err := in.Decode(&one.Figures); err != nil {
			return fmt.Errorf("figures of %s: %w", one.Program, err)
		}
		*b = append(*b, one)
	}
	return nil
}
