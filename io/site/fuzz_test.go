package site

import (
	"net/url"
	"strings"
	"testing"

	"fencerow/sim/invented/sound"
)

// A form of any fields, and a file of any text that is opened with it, give a page: none is the program's own
// fault, and none shows a figure that is not finite.
func FuzzForm(f *testing.F) {
	s := tested()
	s.Draws = 256
	record := strings.Join(typed, "&")
	starts := []string{
		"/answer\n" + record, "/land\ndo=lines&" + record, "/shares\n" + record, "/known\n" + record, "/sheet\n" + record, "/keep\n" + record,
		"/room\ncounty=Story, Iowa&crop=corn&plc=150&price=4.10&yield=180", "/counties\ntyped=sto", "/words\n", "/answer\ndemo=yes",
		"/\ndo=open\nformat: fencerow/operation/1\nfarms: [{farm: 1, county: 19169, bases: [{commodity: corn, base_acres: 120}]}]",
		"/\ndo=open&pasted=farm,county,commodity,base_acres%0A417,19169,corn,120%0A",
	}
	sound.ReadWords(f, "testdata/fuzz/words.txt").Fuzz(f, starts, func(t *testing.T, text []byte) {
		path, after, _ := strings.Cut(string(text), "\n")
		fields, file, opened := strings.Cut(after, "\n")
		form, _ := url.ParseQuery(fields) // those that can be read, as a server has them
		r := Request{Path: path, Form: form}
		if opened {
			r.Files = []File{{Name: "opened.yaml", Text: []byte(file), Field: "opened"}}
		}
		a := s.Answer(r)
		switch page := string(a.Body); {
		case a.Status == 500:
			t.Errorf("%s", page)
		case a.Status == 200 && strings.HasPrefix(a.Type, "text/html") && !strings.Contains(after, "NaN") && strings.Contains(page, ">NaN"):
			t.Errorf("a figure is no number: %s", page)
		}
	})
}
