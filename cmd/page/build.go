//go:build !js

package main

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"fencerow/io/file"
	"fencerow/io/read/market"
	"fencerow/io/site"
)

//go:embed shell.html
var shell string

//go:embed worker.js
var worker string

//go:embed shell.js
var starter string

func main() {
	out := flag.String("out", "fencerow.html", "the file to write")
	prices := flag.String("market", "", "a market file to put into the page")
	draws := flag.Int("draws", 4096, "outcomes of an answer")
	today := flag.String("today", "", "the day of every question, YYYY-MM-DD; without it the day of the reader")
	flag.Parse()
	if err := build(*out, *prices, *today, *draws); err != nil {
		fmt.Fprintln(os.Stderr, "page: "+err.Error())
		os.Exit(1)
	}
}

// build compiles the program for a browser and writes the page.
func build(out, prices, today string, draws int) error {
	var text []byte
	if prices != "" {
		var err error
		if text, err = os.ReadFile(prices); err != nil {
			return err
		}
		if _, err := market.Parse(prices, text); err != nil {
			return err
		}
	}
	program, support, err := compiled()
	if err != nil {
		return err
	}
	made, err := pageOf(program, support, settings{Today: today, Draws: draws, Market: string(text)})
	if err != nil {
		return err
	}
	if err := file.NewRun(prices).Write(out, func(w io.Writer) error { _, err := w.Write(made); return err }); err != nil {
		return err
	}
	sum := sha256.Sum256(made)
	fmt.Printf("%s: %d bytes, sha256 %s\n", out, len(made), hex.EncodeToString(sum[:]))
	return nil
}

// settings are what the page tells the program inside it.
type settings struct {
	Today  string `json:"today"`
	Draws  int    `json:"draws"`
	Market string `json:"market"`
}

// compiled returns the program for a browser, and Go's own script that runs it.
func compiled() (program, support []byte, err error) {
	folder, err := os.MkdirTemp("", "fencerow-page")
	if err != nil {
		return nil, nil, err
	}
	defer os.RemoveAll(folder)
	name := filepath.Join(folder, "fencerow.wasm")
	build := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w -buildid=", "-o", name, "fencerow/cmd/page")
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	build.Stderr = os.Stderr
	if err := build.Run(); err != nil {
		return nil, nil, err
	}
	if program, err = os.ReadFile(name); err != nil {
		return nil, nil, err
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return nil, nil, err
	}
	support, err = os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	return program, support, err
}

// pageOf puts the page together. Each script is named to the browser by its hash, and no
// connection of any kind is allowed.
func pageOf(program, support []byte, with settings) ([]byte, error) {
	packed, err := zipped(program)
	if err != nil {
		return nil, err
	}
	said, err := json.Marshal(with)
	if err != nil {
		return nil, err
	}
	running := "const settings = " + string(said) + ";\nconst workerText = " + quoted(string(support)+"\n"+worker) + ";\n" + starter
	scripts := []string{running, site.Script()}
	allowed := "'wasm-unsafe-eval' blob:"
	for _, script := range scripts {
		sum := sha256.Sum256([]byte(script))
		allowed += " 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	policy := "default-src 'none'; connect-src 'none'; img-src data:; style-src 'unsafe-inline'; script-src " + allowed + "; worker-src blob:; base-uri 'none'; form-action 'none'"
	made := shell
	for place, text := range map[string]string{"{{policy}}": policy, "{{style}}": site.Style(), "{{begin}}": scripts[0], "{{page}}": scripts[1]} {
		made = strings.Replace(made, place, text, 1)
	}
	return []byte(strings.Replace(made, "{{program}}", packed, 1)), nil
}

// quoted is a text as a script may hold it: nothing in it can end the script.
func quoted(text string) string {
	said, _ := json.Marshal(text) // a string cannot fail; < > & are escaped
	return string(said)
}

// zipped is the program gzipped, as text.
func zipped(program []byte) (string, error) {
	var out bytes.Buffer
	z, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err == nil {
		_, err = z.Write(program)
	}
	if err == nil {
		err = z.Close()
	}
	return base64.StdEncoding.EncodeToString(out.Bytes()), err
}
