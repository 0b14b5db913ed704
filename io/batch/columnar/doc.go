// Package columnar writes the lines of a batch as Parquet files and joins such files. It knows
// nothing of what the lines say: they are structs whose fields name their columns
// (`parquet:"client"`). Start reading at Writer.
package columnar
