package main

import (
	"net/url"
	"strings"
	"testing"
	"time"

	"fencerow/cmd/fencerow/demo"
	"fencerow/io/site"
)

// siteUnits are the texts of the pages of the site: right and wrong ones.
func siteUnits(t *testing.T) (all []string) {
	t.Helper()
	s := &site.Site{Today: time.Date(2026, time.November, 25, 0, 0, 0, 0, time.UTC), Seed: 1, Draws: 1024, Demo: site.Demo{Files: demo.Files, Name: demo.Operation, Today: demo.Today()}, Workbook: bookOf}
	record := "f1.county=Story, Iowa&f1.number=0417&f1.b1.crop=corn&f1.b1.acres=120&f1.b1.yield=171&f1.b2.crop=soybeans&f1.b2.acres=80&w1.name=landowner&f1.share=60&f1.w1=40"
	wrong := "do=next&f1.county=Storey, Iowa&f1.b1.crop=corn&f1.b1.acres=many&f1.b1.yield=1710&f1.b2.acres=80&f1.share=140&p.corn.2026=480"
	for path, form := range map[string]string{
		"/": "", "/land": record, "/land?": wrong, "/shares": record, "/shares?": wrong, "/known": record, "/answer": record, "/answer?": record + "&p.corn.2026=480&tp.corn=x",
		"/answer??": "demo=yes&tp.corn=x&ty.99001.corn.all=-3", "/sheet": record + "&which=lender", "/sheet?": record + "&which=person:landowner", "/room": "", "/room?": "county=Story, Iowa&crop=corn&plc=171&price=4.10&yield=200",
		"/room??": "county=Story&crop=corn", "/words": "", "/nothing": "", "/??": "do=open&pasted=farm,county,crop,base acres%0A1,Story Iowa,corn,-5",
	} {
		v, err := url.ParseQuery(form)
		if err != nil {
			t.Fatal(err)
		}
		body := string(s.Answer(site.Request{Path: strings.TrimRight(path, "?"), Form: v}).Body)
		all = append(all, pageUnits(body)...)
	}
	return all
}
