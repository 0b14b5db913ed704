package quickstats_test

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"

	"fencerow/io/read/quickstats"
)

// repeats is a network that answers each request with what it asks.
type repeats struct{}

func (repeats) RoundTrip(r *http.Request) (*http.Response, error) {
	w := httptest.NewRecorder()
	fmt.Fprintln(w, r.FormValue("state_fips_code"), r.FormValue("commodity_desc"), r.FormValue("year__GE"))
	return w.Result(), nil
}

// One State's yields of corn since 1980, with one's own key. With http.DefaultClient in the place
// of this client NASS itself is asked, which the example does not.
func ExampleFetch() {
	client := &http.Client{Transport: repeats{}}
	question := quickstats.Question{State: "99", Commodity: "CORN", FirstYear: 1980}
	if err := quickstats.Fetch(context.Background(), client, quickstats.Address, "my key", question, os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output: 99 CORN 1980
}
