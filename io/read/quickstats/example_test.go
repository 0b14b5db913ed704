package quickstats_test

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"

	"fencerow/io/read/quickstats"
)

// One State's yields of corn since 1980, with one's own key. quickstats.Address stands where the
// example asks a server of its own: it is not run against NASS.
func ExampleFetch() {
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		fmt.Fprintln(w, r.FormValue("state_fips_code"), r.FormValue("commodity_desc"), r.FormValue("year__GE"))
	}))
	defer server.Close()
	question := quickstats.Question{State: "99", Commodity: "CORN", FirstYear: 1980}
	if err := quickstats.Fetch(context.Background(), server.Client(), server.URL, "my key", question, os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output: 99 CORN 1980
}
