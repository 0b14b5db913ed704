package parquet

import (
	"strings"
	"testing"

	library "github.com/parquet-go/parquet-go"
)

// Columns packed with Brotli are refused with what to do.
func TestBrotliIsRefused(t *testing.T) {
	if _, err := library.Brotli.Decode(nil, []byte{1, 2, 3}); err == nil || !strings.Contains(err.Error(), "Brotli") || !strings.Contains(err.Error(), "save the file with") {
		t.Errorf("reading: %v", err)
	}
	if _, err := library.Brotli.Encode(nil, []byte{1}); err == nil {
		t.Error("writing is no error")
	}
}
