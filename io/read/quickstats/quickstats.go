package quickstats

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strings"
	"time"
)

// Address is where NASS answers.
const Address = "https://quickstats.nass.usda.gov/api/api_GET/"

// Notice is what NASS asks every product to show that uses its interface.
const Notice = "This product uses the NASS API but is not endorsed or certified by NASS."

// Question is one State's county yields of one commodity.
type Question struct {
	State     string // two digits
	Commodity string // as NASS names it: CORN, SOYBEANS, WHEAT, ...
	FirstYear int
}

// mostBytes bounds an answer: NASS gives at most 50,000 records, some 500 bytes
// each.
const mostBytes = 64 << 20

// patience is how long one answer is waited for.
const patience = 2 * time.Minute

// Refused is NASS's own word against a question.
type Refused struct{ Status, Words string }

func (r Refused) Error() string { return fmt.Sprintf("NASS answers %s: %s", r.Status, r.Words) }

// Fetch writes the CSV of an answer to w. The key goes to address and nowhere
// else; it is left out of every error.
//
// Source of the protocol: NASS Quick Stats, API documentation (api_GET, format
// CSV, field__GE); errors are JSON with a list "error".
func Fetch(ctx context.Context, client *http.Client, address, key string, q Question, w io.Writer) error {
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	values := url.Values{
		"key": {key}, "format": {"CSV"}, "source_desc": {"SURVEY"}, "sector_desc": {"CROPS"}, "commodity_desc": {q.Commodity}, "statisticcat_desc": {"YIELD"},
		"agg_level_desc": {"COUNTY"}, "state_fips_code": {q.State}, "year__GE": {fmt.Sprint(q.FirstYear)},
	}
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, address+"?"+values.Encode(), nil)
	if err != nil {
		return errors.New("the address of the interface is not understood")
	}
	answer, err := client.Do(request)
	if err != nil {
		return errors.New("NASS cannot be reached: " + strings.ReplaceAll(unwrapped(err), key, "(key)"))
	}
	defer answer.Body.Close()
	body := io.LimitReader(answer.Body, mostBytes+1)
	if answer.StatusCode != http.StatusOK {
		return refused(answer.Status, body, key)
	}
	n, err := io.Copy(w, body)
	switch {
	case err != nil:
		return errors.New("the answer broke off: " + unwrapped(err))
	case n > mostBytes:
		return fmt.Errorf("the answer is larger than %d MB: ask for fewer years", mostBytes>>20)
	}
	return nil
}

// unwrapped is an error without the address, which holds the key.
func unwrapped(err error) string {
	var at *url.Error
	if errors.As(err, &at) {
		return at.Err.Error()
	}
	return err.Error()
}

// refused reads NASS's own words.
func refused(status string, body io.Reader, key string) error {
	const most = 1 << 16
	text, _ := io.ReadAll(io.LimitReader(body, most))
	var said struct {
		Error []string `json:"error"`
	}
	words := strings.TrimSpace(string(text))
	if json.Unmarshal(text, &said) == nil && len(said.Error) > 0 {
		words = strings.Join(said.Error, "; ")
	}
	const shown = 300
	return Refused{status, strings.ReplaceAll(words[:min(len(words), shown)], key, "(key)")}
}
