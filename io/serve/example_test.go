package serve_test

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"time"

	"fencerow/io/serve"
	"fencerow/io/site"
)

// A request under another name than the one that is served is refused.
func ExampleHandler() {
	s := &site.Site{Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Seed: 1, Draws: 1024}
	h := serve.Handler(s, []string{"127.0.0.1:8000"}, "token")
	for _, host := range []string{"127.0.0.1:8000", "elsewhere.example"} {
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.Host = host
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		fmt.Println(host, w.Code)
	}
	// Output:
	// 127.0.0.1:8000 200
	// elsewhere.example 421
}
