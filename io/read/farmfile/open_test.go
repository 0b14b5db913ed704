package farmfile_test

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fencerow/io/read/farmfile"
)

// The template opens as a table of two good rows, the same ones as in a text file. Other
// forms of tables are tested beside io/read/farmtable, which says what their cells mean.
func TestOpen(t *testing.T) {
	var template bytes.Buffer
	if err := farmfile.WriteTemplate(&template, false); err != nil {
		t.Fatal(err)
	}
	text := "farm,county,commodity,base_acres\n0417,99001,corn,120\n0417,99001,soybeans,80\n"
	for name, content := range map[string]string{"farms.xlsx": template.String(), "FARMS.CSV": text} {
		path := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(path, []byte(content), 0o600); err != nil {
			t.Fatal(err)
		}
		rows, err := farmfile.Open(path, nil)
		if err != nil {
			t.Fatal(err)
		}
		defer rows.Close()
		acres := 0.0
		for {
			row, refused, err := rows.Next()
			if err == io.EOF {
				break
			}
			if err != nil || len(refused) > 0 {
				t.Fatalf("%s: %v, %v", name, refused, err)
			}
			acres += row.BaseAcres
		}
		if acres != 120+80 {
			t.Errorf("%s: %v base acres, want 200", name, acres)
		}
	}
	if _, err := farmfile.Open("farms.txt", nil); err == nil || !strings.Contains(err.Error(), `".txt" is no ending of a table`) {
		t.Error(err)
	}
}
