package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"sync"
	"testing"
	"time"
)

// chromium is one browser without a window, to which tests speak through a pipe: a start for
// each page would take most of their time.
type chromium struct {
	to      io.Writer
	process *exec.Cmd
	folder  string

	mutex   sync.Mutex
	last    int
	answers map[int]chan reply   // by number of the question
	events  map[string]chan bool // page loaded, by session
	ended   error
}

// reply is what the browser says to a question.
type reply struct {
	Result json.RawMessage
	Error  *struct{ Message string }
}

// browserWaits is how long a question may take.
const browserWaits = 2 * time.Minute

// theBrowser is the browser of all tests, started when it is first asked.
var theBrowser = sync.OnceValues(startBrowser)

// endBrowser ends it where it was started.
var endBrowser = func() {}

func startBrowser() (*chromium, error) {
	folder, err := os.MkdirTemp("", "chromium")
	if err != nil {
		return nil, err
	}
	askOut, askIn, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	sayOut, sayIn, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	c := exec.Command("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--hide-scrollbars", "--user-data-dir="+folder, "--remote-debugging-pipe")
	c.ExtraFiles = []*os.File{askOut, sayIn} // 3 and 4, as the flag has it
	if err := c.Start(); err != nil {
		return nil, err
	}
	askOut.Close()
	sayIn.Close()
	b := &chromium{to: askIn, process: c, folder: folder, answers: map[int]chan reply{}, events: map[string]chan bool{}}
	endBrowser = func() {
		askIn.Close() // the browser ends with its pipe
		c.Process.Kill()
		c.Wait()
		os.RemoveAll(folder)
	}
	go b.listen(sayOut)
	return b, nil
}

// listen hands answers to those who wait for them.
func (b *chromium) listen(from io.Reader) {
	in := bufio.NewReader(from)
	for {
		text, err := in.ReadBytes(0)
		if err != nil {
			b.mutex.Lock()
			b.ended = fmt.Errorf("the browser ended: %w", err)
			for _, waiting := range b.answers {
				close(waiting)
			}
			b.answers = nil
			b.mutex.Unlock()
			return
		}
		var said struct {
			ID        int
			Method    string
			SessionID string
			reply
		}
		if json.Unmarshal(text[:len(text)-1], &said) != nil {
			continue
		}
		b.mutex.Lock()
		waiting, loaded := b.answers[said.ID], b.events[said.SessionID]
		delete(b.answers, said.ID)
		b.mutex.Unlock()
		switch {
		case waiting != nil:
			waiting <- said.reply
		case said.Method == "Page.loadEventFired" && loaded != nil:
			loaded <- true
		}
	}
}

// ask puts a question to the browser, or to a page of it, and reads the answer into result.
func (b *chromium) ask(session, method string, with map[string]any, result any) error {
	waiting := make(chan reply, 1)
	b.mutex.Lock()
	if b.ended != nil {
		b.mutex.Unlock()
		return b.ended
	}
	b.last++
	question := map[string]any{"id": b.last, "method": method, "params": with}
	if session != "" {
		question["sessionId"] = session
	}
	text, err := json.Marshal(question)
	if err == nil {
		b.answers[b.last] = waiting
		_, err = b.to.Write(append(text, 0))
	}
	b.mutex.Unlock()
	if err != nil {
		return err
	}
	select {
	case said, open := <-waiting:
		switch {
		case !open:
			return b.ended
		case said.Error != nil:
			return errors.New(method + ": " + said.Error.Message)
		case result == nil:
			return nil
		}
		return json.Unmarshal(said.Result, result)
	case <-time.After(browserWaits):
		return errors.New(method + ": no answer")
	}
}

// inBrowser opens a file in a page of its own of this size, in pixels, and calls do when it is
// loaded.
func inBrowser(t *testing.T, path string, width, height int, do func(b *chromium, page string) error) {
	t.Helper()
	b, err := theBrowser()
	if err != nil {
		t.Fatal(err)
	}
	var target struct{ TargetID string }
	var session struct{ SessionID string }
	err = b.ask("", "Target.createTarget", map[string]any{"url": "about:blank"}, &target)
	if err == nil {
		defer func() { _ = b.ask("", "Target.closeTarget", map[string]any{"targetId": target.TargetID}, nil) }()
		err = b.ask("", "Target.attachToTarget", map[string]any{"targetId": target.TargetID, "flatten": true}, &session)
	}
	id := session.SessionID
	loaded := make(chan bool, 10)
	b.mutex.Lock()
	b.events[id] = loaded
	b.mutex.Unlock()
	for _, one := range []struct {
		method string
		with   map[string]any
	}{{"Page.enable", nil}, {"Emulation.setDeviceMetricsOverride", map[string]any{"width": width, "height": height, "deviceScaleFactor": 1, "mobile": false}}, {"Page.navigate", map[string]any{"url": "file://" + path}}} {
		if err == nil {
			err = b.ask(id, one.method, one.with, nil)
		}
	}
	if err == nil {
		select {
		case <-loaded:
			err = do(b, id)
		case <-time.After(browserWaits):
			err = errors.New("it does not load")
		}
	}
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
}

// evaluate returns what a script comes to in a page, once its promise is kept.
func (b *chromium) evaluate(session, script string, into any) error {
	var found struct {
		Result           struct{ Value json.RawMessage }
		ExceptionDetails *struct{ Text string }
	}
	err := b.ask(session, "Runtime.evaluate", map[string]any{"expression": script, "awaitPromise": true, "returnByValue": true}, &found)
	if err == nil && found.ExceptionDetails != nil {
		err = errors.New(found.ExceptionDetails.Text)
	}
	if err != nil {
		return err
	}
	return json.Unmarshal(found.Result.Value, into)
}
