package quickstats

import (
	"bytes"
	"context"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

// nass answers as the interface is documented: CSV with lower-case headings, JSON
// errors with status 401 for a wrong key and 413 above 50,000 records.
func nass() *http.Client {
	return &http.Client{Transport: answering(func(w http.ResponseWriter, r *http.Request) {
		q := r.URL.Query()
		switch {
		case q.Get("key") != "secret":
			w.WriteHeader(http.StatusUnauthorized)
			w.Write([]byte(`{"error":["unauthorized"]}`))
		case q.Get("year__GE") == "1900":
			w.WriteHeader(http.StatusRequestEntityTooLarge)
			w.Write([]byte(`{"error":["exceeds limit=50000"]}`))
		case q.Get("format") != "CSV" || q.Get("statisticcat_desc") != "YIELD" || q.Get("agg_level_desc") != "COUNTY" || q.Get("source_desc") != "SURVEY":
			w.WriteHeader(http.StatusBadRequest)
			w.Write([]byte(`{"error":["bad request - invalid query"]}`))
		default:
			w.Write([]byte("\"source_desc\",\"commodity_desc\",\"Value\"\n\"SURVEY\",\"" + q.Get("commodity_desc") + "\",\"1,234.5\"\n"))
		}
	})}
}

// answering answers requests without a network: a computer may have none at all.
type answering http.HandlerFunc

func (a answering) RoundTrip(r *http.Request) (*http.Response, error) {
	w := httptest.NewRecorder()
	a(w, r)
	return w.Result(), nil
}

func TestFetch(t *testing.T) {
	client, address := nass(), "http://nass.invalid"
	var answer bytes.Buffer
	q := Question{"99", "CORN", 1980}
	if err := Fetch(context.Background(), client, address, "secret", q, &answer); err != nil || !strings.Contains(answer.String(), `"CORN","1,234.5"`) {
		t.Errorf("answer %q, error %v", answer.String(), err)
	}
	for name, one := range map[string]struct {
		key   string
		first int
		says  string
	}{
		"a wrong key":      {"wrong-key", 1980, "unauthorized"},
		"too many records": {"secret", 1900, "exceeds limit=50000"},
	} {
		q.FirstYear = one.first
		err := Fetch(context.Background(), client, address, one.key, q, &answer)
		if err == nil || !strings.Contains(err.Error(), one.says) || strings.Contains(err.Error(), one.key) {
			t.Errorf("%s: %v", name, err)
		}
	}
	closed := httptest.NewServer(nil)
	closed.Close()
	if err := Fetch(context.Background(), http.DefaultClient, closed.URL, "secret", q, &answer); err == nil || strings.Contains(err.Error(), "secret") {
		t.Errorf("without a server: %v", err)
	}
}
