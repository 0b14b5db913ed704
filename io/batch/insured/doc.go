// Package insured makes the lines of insurance.csv and insurance.parquet: area insurance of a
// farm beside its programs, as the answer has it. It computes nothing. It must not know files
// or parts. Start reading at Of.
package insured
