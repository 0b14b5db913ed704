package serve

import (
	"bytes"
	"crypto/subtle"
	"errors"
	"io"
	"mime/multipart"
	"net/http"
	"net/url"
	"runtime"
	"slices"
	"strings"
	"time"

	"fencerow/io/site"
)

// Limits of a request: far above what a person types, far below what hurts.
const (
	mostBytes  = 4 << 20 // of a form with the files in it
	mostFields = 20000
	patience   = 20 * time.Second // of the reader of an answer
)

// policy lets a page load its own script and nothing else.
const policy = "default-src 'none'; script-src 'self'; style-src 'unsafe-inline'; img-src data:; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// Handler answers the pages of a site. hosts are the names under which a browser may ask
// for them, with the port: another name in a request is another site that was pointed here.
// token is in every form that goes out and has to come back with it.
func Handler(s *site.Site, hosts []string, token string) http.Handler {
	h := &handler{site: s, hosts: hosts, token: token, turns: make(chan struct{}, runtime.GOMAXPROCS(0))}
	return http.HandlerFunc(h.answer)
}

type handler struct {
	site  *site.Site
	hosts []string
	token string
	turns chan struct{} // as many answers at once as there are processors
}

func (h *handler) answer(w http.ResponseWriter, r *http.Request) {
	head := w.Header()
	head.Set("Content-Security-Policy", policy)
	head.Set("X-Content-Type-Options", "nosniff")
	// With no-referrer a browser would send the Origin of a form as null.
	head.Set("Referrer-Policy", "same-origin")
	head.Set("Cross-Origin-Opener-Policy", "same-origin")
	head.Set("Cross-Origin-Resource-Policy", "same-origin")
	head.Set("Cache-Control", "no-store")
	asked, refused := h.request(w, r)
	if refused != nil {
		http.Error(w, refused.said, refused.status)
		return
	}
	if r.URL.Path == site.ScriptPath {
		head.Set("Content-Type", "text/javascript; charset=utf-8")
		io.WriteString(w, site.Script())
		return
	}
	select {
	case h.turns <- struct{}{}:
		defer func() { <-h.turns }()
	case <-r.Context().Done():
		return
	}
	a := h.site.Answer(asked)
	head.Set("Content-Type", a.Type)
	if a.Name != "" {
		head.Set("Content-Disposition", `attachment; filename="`+fileName(a.Name)+`"`)
	}
	w.WriteHeader(a.Status)
	w.Write(a.Body)
}

// refusal is why a request is not answered.
type refusal struct {
	status int
	said   string
}

// request reads a request, or says why it is refused.
func (h *handler) request(w http.ResponseWriter, r *http.Request) (site.Request, *refusal) {
	asked := site.Request{Path: r.URL.Path, Form: url.Values{}, Token: h.token}
	origin := r.Header.Get("Origin")
	switch {
	case !slices.Contains(h.hosts, r.Host):
		return asked, &refusal{http.StatusMisdirectedRequest, "This address is not the one that fencerow serves. Open " + h.hosts[0] + "."}
	case r.Method != http.MethodGet && r.Method != http.MethodPost && r.Method != http.MethodHead:
		return asked, &refusal{http.StatusMethodNotAllowed, "Only GET and POST are answered."}
	case !slices.Contains([]string{"", "none", "same-origin"}, r.Header.Get("Sec-Fetch-Site")) && r.Method == http.MethodPost,
		origin != "" && !slices.Contains(h.hosts, strings.TrimPrefix(origin, "http://")):
		return asked, &refusal{http.StatusForbidden, "This form came from another site. Begin at " + h.hosts[0] + "."}
	case r.Method != http.MethodPost:
		return asked, nil
	}
	r.Body = http.MaxBytesReader(w, r.Body, mostBytes)
	if refused := h.form(r, &asked); refused != nil {
		return asked, refused
	}
	if subtle.ConstantTimeCompare([]byte(asked.Form.Get("token")), []byte(h.token)) != 1 {
		return asked, &refusal{http.StatusForbidden, "This form is of an earlier run of fencerow, or of another site. Open " + h.hosts[0] + " and type it again, or open your saved file."}
	}
	return asked, nil
}

// form reads the fields and files of a form without a disk.
func (h *handler) form(r *http.Request, asked *site.Request) *refusal {
	parts, err := r.MultipartReader()
	if errors.Is(err, http.ErrNotMultipart) {
		if err = r.ParseForm(); err == nil {
			asked.Form = r.PostForm
		}
		return tooLarge(err)
	}
	for n := 0; err == nil; n++ {
		var part *multipart.Part
		if part, err = parts.NextPart(); err != nil {
			break
		}
		if n == mostFields {
			return &refusal{http.StatusRequestEntityTooLarge, "The form has too many fields."}
		}
		var text bytes.Buffer
		if _, err = io.Copy(&text, part); err != nil {
			break
		}
		if part.FileName() != "" {
			asked.Files = append(asked.Files, site.File{Name: part.FileName(), Text: text.Bytes(), Field: part.FormName()})
		} else if part.FormName() != "" {
			asked.Form.Add(part.FormName(), text.String())
		}
	}
	if errors.Is(err, io.EOF) {
		return nil
	}
	return tooLarge(err)
}

func tooLarge(err error) *refusal {
	var most *http.MaxBytesError
	switch {
	case err == nil:
		return nil
	case errors.As(err, &most):
		return &refusal{http.StatusRequestEntityTooLarge, "The form with its files is larger than 4 MB. Answer it with fencerow batch."}
	}
	return &refusal{http.StatusBadRequest, "The form could not be read. Go back and send it again."}
}

// fileName keeps the letters of a name that every system takes.
func fileName(name string) string {
	return strings.Map(func(r rune) rune {
		if r == '.' || r == '-' || r == '_' || r == ' ' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
			return r
		}
		return '_'
	}, name)
}

// Server returns a server of a handler with limits on time, so that a slow or silent
// sender holds nothing.
func Server(h http.Handler) *http.Server {
	return &http.Server{Handler: h, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: patience, WriteTimeout: 3 * patience, IdleTimeout: time.Minute, MaxHeaderBytes: 64 << 10}
}
