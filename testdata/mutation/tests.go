package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
	"time"
)

// mostCache is how many bytes the build cache may take before it is made anew.
const mostCache = 3 << 30

// How many seconds of the processor the tests of one package may take: without a change those near
// the changed rooms take five, the others two minutes. On a machine with other work the clock
// would say little, so it only ends what sleeps.
const nearLimit, farLimit = "60", "600"

// tests runs what depends on a changed room.
type tests struct {
	work, tree string
	env        []string
	dependsOn  map[string][]string // a package -> all it and its tests are made of
	order      []string            // packages, those near the changed rooms first
}

func newTests(work, tree string) (*tests, error) {
	t := &tests{work: work, tree: tree, dependsOn: map[string][]string{}}
	overlay, cache := filepath.Join(work, "overlay.json"), filepath.Join(work, "cache")
	t.env = append(os.Environ(), "GOFLAGS=-mod=readonly -overlay="+overlay, "GOCACHE="+cache)
	out, err := exec.Command("go", "list", "-C", tree, "-f", `{{.ImportPath}}|{{join .Deps " "}}|{{join .TestImports " "}} {{join .XTestImports " "}}`, "./...").Output()
	if err != nil {
		return nil, err
	}
	deps, imports := map[string][]string{}, map[string][]string{}
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		parts := strings.Split(line, "|")
		t.order = append(t.order, parts[0])
		deps[parts[0]], imports[parts[0]] = strings.Fields(parts[1]), strings.Fields(parts[2])
	}
	for _, p := range t.order {
		all := append([]string{p}, deps[p]...)
		for _, i := range imports[p] {
			all = append(append(all, i), deps[i]...)
		}
		t.dependsOn[p] = all
	}
	slices.SortStableFunc(t.order, func(a, b string) int { return layer(a) - layer(b) })
	return t, nil
}

// layer orders packages from those near the changed rooms to the whole program.
func layer(p string) int {
	p = strings.TrimPrefix(p, "fencerow/")
	switch {
	case near(p):
		return 0
	case strings.HasPrefix(p, "sim/compare"), strings.HasPrefix(p, "sim/explain"):
		return 1
	case strings.HasPrefix(p, "sim/"):
		return 2
	case strings.HasPrefix(p, "io/"):
		return 3
	}
	return 4
}

// near reports whether a package is of the changed rooms.
func near(p string) bool {
	for _, room := range rooms {
		if p == room || strings.HasPrefix(p, room+"/") {
			return true
		}
	}
	return false
}

// run applies a change and runs tests until one fails.
func (t *tests) run(c change, far bool) (result, error) {
	start := time.Now()
	r := result{key: c.key()}
	if err := t.overlay(c); err != nil {
		return r, err
	}
	build := exec.Command("go", "build", "./"+c.room())
	build.Dir, build.Env = t.tree, t.env
	if build.Run() != nil {
		r.outcome = doesNotCompile
		return r, nil
	}
	own := "fencerow/" + c.room()
	groups := make([][]string, 6)
	groups[0] = []string{own}
	for _, p := range t.order {
		if p != own && slices.Contains(t.dependsOn[p], own) {
			groups[layer(p)+1] = append(groups[layer(p)+1], p)
		}
	}
	r.outcome = survivedNear
	for i, packages := range groups {
		if len(packages) == 0 || i > 1 && !far {
			continue
		}
		if i > 1 {
			r.outcome = survivedFar
		}
		limit := nearLimit
		if i > 1 {
			limit = farLimit
		}
		if by, failed := t.firstFailure(packages, limit); failed {
			r.outcome, r.by = killed, by
			if strings.Contains(by, "build failed") {
				r.outcome = doesNotCompile
			}
			if strings.Contains(by, "panic: test timed out") || strings.HasPrefix(by, "signal: ") {
				r.outcome = killedByTime
			}
			break
		}
	}
	r.seconds = time.Since(start).Seconds()
	return r, t.trim()
}

// overlay makes the go command read the changed file in place of the one in the tree.
func (t *tests) overlay(c change) error {
	path, err := filepath.Abs(filepath.Join(t.tree, c.file))
	if err != nil {
		return err
	}
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	changed := filepath.Join(t.work, "changed.go")
	if err := os.WriteFile(changed, c.apply(text), 0o644); err != nil {
		return err
	}
	list, err := json.Marshal(map[string]map[string]string{"Replace": {path: changed}})
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(t.work, "overlay.json"), list, 0o644)
}

var failure = regexp.MustCompile(`^\s*--- FAIL: (\S+)|^FAIL\s+(\S.*)|^(panic: .*)|^(signal: .*)`)

// firstFailure runs packages and stops all at the first test that fails.
func (t *tests) firstFailure(packages []string, limit string) (by string, failed bool) {
	cmd := exec.Command("sh", append([]string{"-c", `ulimit -t "$0" && exec go test -vet=off -failfast -timeout 2h "$@"`, limit}, packages...)...)
	cmd.Dir, cmd.Env = t.tree, t.env
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	out, err := cmd.StdoutPipe()
	cmd.Stderr = cmd.Stdout
	if err != nil || cmd.Start() != nil {
		return "the go command did not start", true
	}
	for lines := bufio.NewScanner(out); lines.Scan(); {
		if m := failure.FindStringSubmatch(lines.Text()); m != nil {
			by, failed = strings.Join(m[1:], ""), true
			break
		}
	}
	if failed {
		syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL) // go test and what it started
	}
	return by, cmd.Wait() != nil || failed
}

// trim removes the build cache where it has grown large.
func (t *tests) trim() error {
	var size int64
	cache := filepath.Join(t.work, "cache")
	filepath.WalkDir(cache, func(_ string, d fs.DirEntry, err error) error {
		if err == nil {
			if info, err := d.Info(); err == nil {
				size += info.Size()
			}
		}
		return nil
	})
	if size < mostCache {
		return nil
	}
	fmt.Printf("the build cache has %d MB: made anew\n", size>>20)
	return os.RemoveAll(cache)
}

// copyTree copies the tree as it is committed to a folder, once. The agencies' tables beside it are linked.
func copyTree(from, to string) error {
	if _, err := os.Stat(filepath.Join(to, "go.mod")); err == nil {
		return nil
	}
	if err := os.MkdirAll(to, 0o755); err != nil {
		return err
	}
	copy := exec.Command("sh", "-c", `git archive HEAD | tar -x -C "$1"`, "sh", to)
	copy.Dir, copy.Stderr = from, os.Stderr
	if err := copy.Run(); err != nil {
		return err
	}
	shared, err := filepath.EvalSymlinks(filepath.Join(from, "../shared"))
	if err == nil {
		err = os.Symlink(shared, filepath.Join(to, "../shared"))
	}
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrExist) {
		return nil // no tables, or linked before
	}
	return err
}
