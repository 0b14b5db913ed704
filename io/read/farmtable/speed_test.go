package farmtable_test

import (
	"fmt"
	"strings"
	"testing"
)

// BenchmarkPlainTable reads 50,000 rows of a table with our own headings.
func BenchmarkPlainTable(b *testing.B) {
	const rows = 50_000
	var text strings.Builder
	text.WriteString("client,farm,county,commodity,base_acres,payment_yield,irrigated_share,election_on_record,producer,share\n")
	for i := range rows {
		fmt.Fprintf(&text, "client %d,%d,99001,corn,%d.25,150,0.35,PLC,ann,0.5\n", i/4, i, 1+i%400)
	}
	content := text.String()
	for b.Loop() {
		read, refused, err := readText(content)
		if err != nil || len(refused) > 0 || len(read) != rows {
			b.Fatal(err, len(refused), len(read))
		}
	}
}
