package main

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// update renews the golden parts of scripts and generated pages: read the
// change in review.
var update = flag.Bool("update", false, "renew golden output")

func TestMain(m *testing.M) {
	testscript.Main(allTests{m}, map[string]func(){"fencerow": main})
}

// allTests ends what tests share when all have run.
type allTests struct{ *testing.M }

// Run runs them.
func (a allTests) Run() int {
	defer func() {
		endBrowser()
		os.RemoveAll(made.folder)
	}()
	return a.M.Run()
}

// TestScripts runs each testdata/*.txt: one behavior of the command line each.
func TestScripts(t *testing.T) {
	if scripts, _ := filepath.Glob("testdata/*.txt"); len(scripts) == 0 {
		t.Fatal("no script found")
	}
	testscript.Run(t, testscript.Params{
		Dir:           "testdata",
		UpdateScripts: *update,
		Setup: func(env *testscript.Env) error {
			demo, err := os.ReadDir("demo")
			if err != nil {
				return err
			}
			for _, f := range demo { // the demo's files lie in each script's folder
				data, err := os.ReadFile(filepath.Join("demo", f.Name()))
				if err != nil {
					return err
				}
				if err := os.WriteFile(filepath.Join(env.WorkDir, f.Name()), data, 0o644); err != nil {
					return err
				}
			}
			return nil
		},
	})
}
