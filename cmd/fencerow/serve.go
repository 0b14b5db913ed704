package main

import (
	"bytes"
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"os/signal"
	"runtime"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"fencerow/cmd/fencerow/demo"
	"fencerow/io/disk"
	"fencerow/io/read/document"
	"fencerow/io/read/market"
	"fencerow/io/serve"
	"fencerow/io/site"
	"fencerow/sim/answer"
)

// thisComputer is the address that no other computer reaches.
const thisComputer = "127.0.0.1"

func newServe() *cobra.Command {
	var q question
	var address string
	var port int
	var noOpen bool
	c := &cobra.Command{
		Use:   "serve",
		Short: "the same answers in your browser, on this computer alone",
		Long: `Opens pages in your browser. You type what the farm record says, see the answer and
print the sheets. Nothing leaves this computer. The pages are at 127.0.0.1, which
no other computer reaches. Ctrl-C ends it. What you typed is gone then, unless you
saved the file.
` + exitHelp,
		Example: "  fencerow serve\n  fencerow serve --port 8080 --no-open",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			return work(func() error {
				s, end, err := q.site(c)
				if err != nil {
					return err
				}
				defer end()
				listener, err := net.Listen("tcp", net.JoinHostPort(address, fmt.Sprint(port)))
				if err != nil {
					return usageError{fmt.Sprintf("--port is %d: %v", port, err), "give another port, or leave it out"}
				}
				return serving(c, s, listener, address, noOpen)
			})
		},
	}
	q.addBook(c)
	q.addDraws(c, answer.DefaultDraws)
	q.addSources(c)
	c.Flags().StringVar(&address, "address", thisComputer, "where to answer; anything but 127.0.0.1 lets other computers ask")
	c.Flags().IntVar(&port, "port", 0, "the port of the pages (default: a free one)")
	c.Flags().BoolVar(&noOpen, "no-open", false, "do not open a browser; print the address alone")
	return c
}

// site makes the pages from the flags. end closes the county book.
func (q *question) site(c *cobra.Command) (s *site.Site, end func(), err error) {
	r, err := q.request(c)
	if err != nil {
		return nil, nil, err
	}
	s = &site.Site{Today: r.Today, Seed: r.Seed, Draws: r.Draws, Demo: site.Demo{Files: demo.Files, Name: demo.Operation, Today: demo.Today()}, Workbook: bookOf}
	end = func() {}
	book, err := disk.OpenBook(q.book, false)
	if err != nil {
		return nil, nil, err
	}
	if book != nil {
		s.Book, end = book, func() { book.Close() }
	}
	if r.Market != "" {
		if s.Market, err = document.Load(r.Market); err == nil {
			_, err = market.Parse(r.Market, s.Market)
		}
	}
	if err == nil && book != nil {
		_, _, err = book.Market() // what is wrong is told now, not on a page
	}
	if err != nil {
		end()
	}
	return s, end, err
}

// bookOf is the spreadsheet of a comparison.
func bookOf(asked answer.Question, found answer.Comparison) ([]byte, error) {
	var out bytes.Buffer
	err := writeBook(&out, asked, found, false)
	return out.Bytes(), err
}

// serving answers until Ctrl-C.
func serving(c *cobra.Command, s *site.Site, listener net.Listener, address string, noOpen bool) error {
	port := listener.Addr().(*net.TCPAddr).Port
	hosts := []string{fmt.Sprintf("%s:%d", thisComputer, port), fmt.Sprintf("localhost:%d", port)}
	talk := c.ErrOrStderr()
	if address != thisComputer {
		hosts = append(hosts, net.JoinHostPort(address, fmt.Sprint(port)))
		fmt.Fprintln(talk, "fencerow: warning: other computers of your network can open these pages, and what is sent is not encrypted")
	}
	place := "http://" + hosts[0] + "/"
	fmt.Fprintln(c.OutOrStdout(), place)
	fmt.Fprintln(talk, "fencerow: open this address in a browser; Ctrl-C ends it")
	signal.Reset(os.Interrupt, syscall.SIGTERM) // Ctrl-C is how these pages end
	ctx, stop := signal.NotifyContext(c.Context(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	server := serve.Server(serve.Handler(s, hosts, rand.Text()))
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	if !noOpen {
		openBrowser(place, talk)
	}
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	patience, cancel := context.WithTimeout(context.Background(), 2*time.Second)
	defer cancel()
	if err := server.Shutdown(patience); err != nil && !errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	if err := <-ended; !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	fmt.Fprintln(talk, "fencerow: ended")
	return nil
}

// openBrowser opens a page in the browser of the system; where there is none, the address
// stands on the screen.
func openBrowser(place string, talk io.Writer) {
	command := map[string][]string{"windows": {"rundll32", "url.dll,FileProtocolHandler"}, "darwin": {"open"}}[runtime.GOOS]
	if command == nil {
		command = []string{"xdg-open"}
	}
	if err := exec.Command(command[0], append(command[1:], place)...).Start(); err != nil {
		fmt.Fprintln(talk, "fencerow: no browser was found: open the address yourself")
	}
}
