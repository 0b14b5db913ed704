package site

import (
	"bytes"
	"fmt"
	"html"
	"io/fs"
	"net/url"
	"time"

	"fencerow/io/source"
	"fencerow/sim/answer"
	"fencerow/sim/parallel"
)

// Site answers requests. Its fields are read only, so that many requests can be answered
// at once.
type Site struct {
	Today  time.Time // the day of every question but the demo's
	Seed   uint64
	Draws  int    // scenarios of an answer
	Market []byte // the text of a market file, laid over the built-in prices; nil: none
	Demo   Demo

	Tables source.Tables // nil: tables must be .csv
	Book   source.Book   // nil: no county book

	// Workbook writes the spreadsheet of a comparison; nil: the pages offer none.
	Workbook func(asked answer.Question, found answer.Comparison) ([]byte, error)
}

// Demo is an invented operation that can be looked at before anything is typed.
type Demo struct {
	Files fs.FS  // nil: there is none
	Name  string // of its operation file
	Today time.Time
}

// Request is one step of a visitor: a path and the fields of a form.
type Request struct {
	Path  string
	Form  url.Values
	Files []File // sent with the form
	Token string // written into every form; "": none
}

// File is one that a visitor opens.
type File struct {
	Name  string
	Text  []byte
	Field string // of the form
}

// Response is a page, or a file to keep.
type Response struct {
	Status int    // of HTTP
	Type   string // of the media
	Name   string // of a file to keep; "": a page to show
	Body   []byte
}

// Paths of the pages.
const (
	startPath    = "/"
	landPath     = "/land"
	sharesPath   = "/shares"
	knownPath    = "/known"
	answerPath   = "/answer"
	sheetPath    = "/sheet"
	keepPath     = "/keep"
	workbookPath = "/workbook"
	roomPath     = "/room"
	wordsPath    = "/words"
	countiesPath = "/counties"
)

// Answer returns the page of a request. It does not fail: what is wrong in the form stands
// beside its field, and an unknown path is a page that says so.
func (s *Site) Answer(r Request) Response {
	page, known := map[string]func(*Site, draft, Request) Response{
		startPath: (*Site).start, landPath: (*Site).land, sharesPath: (*Site).shares, knownPath: (*Site).known,
		answerPath: (*Site).answer, sheetPath: (*Site).sheet, keepPath: (*Site).keep, workbookPath: (*Site).workbook,
		roomPath: (*Site).room, wordsPath: (*Site).words, countiesPath: (*Site).counties,
	}[r.Path]
	if !known {
		return s.notFound(r.Path)
	}
	d, err := draftOf(r.Form)
	if err != nil {
		return s.sorry(400, err)
	}
	d.tidy()
	var a Response
	if fault := parallel.Try(func() error { a = page(s, d, r); return nil }); fault != nil {
		return s.sorry(500, fmt.Errorf("the program failed on this page, which is its fault and not yours (%w)", fault))
	}
	if r.Token != "" && a.Name == "" {
		a.Body = bytes.ReplaceAll(a.Body, []byte(tokenPlace), []byte(`<input type="hidden" name="token" value="`+html.EscapeString(r.Token)+`">`))
	}
	return a
}

func (s *Site) notFound(path string) Response {
	f := newFrame("No such page")
	f.put("<p>There is no page %s here.</p>\n", path)
	f.put(`<p><a href="/">Begin at the first page.</a></p>` + "\n")
	return f.response(404)
}

// sorry says what is wrong with a request as a whole.
func (s *Site) sorry(status int, err error) Response {
	f := newFrame("That did not work")
	f.put("<p>%s.</p>\n", fmt.Sprint(err))
	f.put(`<p>Go back in your browser: what you typed is still there.</p>` + "\n")
	return f.response(status)
}
