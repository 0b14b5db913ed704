//go:build js && wasm

package main

import (
	"net/url"
	"syscall/js"
	"time"

	"fencerow/cmd/fencerow/demo"
	"fencerow/io/site"
)

// main waits for requests of the page: fencerowAnswer(path, fields, done).
func main() {
	var s *site.Site
	js.Global().Set("fencerowStart", js.FuncOf(func(_ js.Value, args []js.Value) any {
		s = started(args[0])
		return nil
	}))
	js.Global().Set("fencerowAnswer", js.FuncOf(func(_ js.Value, args []js.Value) any {
		r, done := requestOf(args[0].String(), args[1]), args[2]
		go func() { // a fault inside is a page that says so
			a := s.Answer(r)
			body := js.Global().Get("Uint8Array").New(len(a.Body))
			js.CopyBytesToJS(body, a.Body)
			done.Invoke(a.Status, a.Type, a.Name, body)
		}()
		return nil
	}))
	select {}
}

// started makes the site from what the page says: the day, the number of draws, a market.
func started(settings js.Value) *site.Site {
	today := time.Now()
	if day, err := time.Parse(time.DateOnly, settings.Get("today").String()); err == nil {
		today = day
	}
	s := &site.Site{Today: today, Seed: 1, Draws: settings.Get("draws").Int(), Demo: site.Demo{Files: demo.Files, Name: demo.Operation, Today: demo.Today()}}
	if market := settings.Get("market").String(); market != "" {
		s.Market = []byte(market)
	}
	return s
}

// bytesOf are the bytes of a file, of which each is a letter of the text.
func bytesOf(text string) (all []byte) {
	for _, letter := range text {
		all = append(all, byte(letter))
	}
	return all
}

// requestOf reads the fields of a form: [name, value], with a third part, its bytes, for a
// file.
func requestOf(path string, fields js.Value) site.Request {
	r := site.Request{Path: path, Form: url.Values{}}
	for i := range fields.Length() {
		field := fields.Index(i)
		if field.Length() > 2 {
			r.Files = append(r.Files, site.File{Field: field.Index(0).String(), Name: field.Index(1).String(), Text: bytesOf(field.Index(2).String())})
			continue
		}
		r.Form.Add(field.Index(0).String(), field.Index(1).String())
	}
	return r
}
