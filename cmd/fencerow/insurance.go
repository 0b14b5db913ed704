package main

import (
	"github.com/spf13/cobra"

	"fencerow/io/source"
	"fencerow/program/farm"
)

// demoInsurance is the insurance file of the demo.
const demoInsurance = "demo/insurance.yaml"

// addInsurance adds the flags of area insurance.
func (q *question) addInsurance(c *cobra.Command) {
	c.Flags().BoolVar(&q.withInsurance, "with-insurance", false, "show SCO, ECO and STAX beside the programs: those of the operation file (insurance:), of a table (insured_layers), of --insurance, or of the demo")
	c.Flags().StringVar(&q.insurance, "insurance", "", "an insurance file: area insurance of farms by number (docs/formats.md)")
}

// insuranceFile is the insurance file of the flags, "" for none.
func (q *question) insuranceFile() string {
	if q.withInsurance && q.demo && q.insurance == "" {
		return demoInsurance
	}
	return q.insurance
}

// checkInsurance refuses --with-insurance where nothing says what is insured: it is never
// guessed.
func (q *question) checkInsurance(o farm.Operation) error {
	if q.withInsurance && !source.Insured(o) {
		return usageError{"--with-insurance: no farm has insurance", "write insurance: in the operation file, insured_layers in a table, or name an insurance file (--insurance); docs/formats.md has all"}
	}
	return nil
}
