package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// shownCommands are all commands that people are shown, each by the words that call it.
func shownCommands(c *cobra.Command) [][]string {
	all := [][]string{strings.Fields(c.CommandPath())[1:]}
	for _, sub := range c.Commands() {
		if !sub.Hidden && sub.Name() != "help" && !sub.IsAdditionalHelpTopicCommand() {
			all = append(all, shownCommands(sub)...)
		}
	}
	return all
}

var (
	flagOfHelp    = regexp.MustCompile(`(?m)^ +(?:-\w, )?    ?(--[a-z-]+)`)
	commandOfHelp = regexp.MustCompile(`(?m)^  ([a-z]+) {2,}\S`)
)

// TestManual: each command has a man page that names every flag and command of its help, what
// it does and how it ends; and there is no other page.
func TestManual(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "man")
	runs(t, "manual", "--out", folder)
	want, flags := []string{"fencerow-words.7"}, 0
	for _, words := range shownCommands(newRoot(io.Discard, io.Discard)) {
		name := strings.Join(append([]string{"fencerow"}, words...), "-") + ".1"
		want = append(want, name)
		page := strings.ReplaceAll(fileText(t, filepath.Join(folder, name)), `\-`, "-")
		help := runs(t, append(words, "--help")...)
		named := flagOfHelp.FindAllStringSubmatch(help, -1)
		for _, m := range named {
			if !regexp.MustCompile(`(?m)^\\fB.*` + m[1] + `\b`).MatchString(page) {
				t.Errorf("%s does not name %s", name, m[1])
			}
		}
		flags += len(named)
		_, listed, _ := strings.Cut(help, "Available Commands:")
		listed, _, _ = strings.Cut(listed, "\nFlags:")
		for _, m := range commandOfHelp.FindAllStringSubmatch(listed, -1) {
			if m[1] != "help" && !strings.Contains(page, `\fB`+m[1]+`\fR`) {
				t.Errorf("%s does not name the command %s", name, m[1])
			}
		}
		for _, part := range []string{"NAME", "SYNOPSIS", "DESCRIPTION", "OPTIONS", "EXIT STATUS", "SEE ALSO"} {
			if !strings.Contains(page, "\n.SH "+part+"\n") {
				t.Errorf("%s has no part %s", name, part)
			}
		}
	}
	var got []string
	entries, err := os.ReadDir(folder)
	for _, e := range entries {
		got = append(got, e.Name())
	}
	slices.Sort(want)
	if err != nil || !slices.Equal(got, want) || flags < 150 {
		t.Errorf("pages %v, want %v; %d flags, %v", got, want, flags, err)
	}
	fmt.Printf("man pages: checked %d of %d, %d flags\n", len(got), len(want), flags)
}

// TestManualKeepsFiles: no page goes over a file that is there or through a link, and none is
// written where one cannot be; --force replaces files.
func TestManualKeepsFiles(t *testing.T) {
	folder := t.TempDir()
	mine, other := filepath.Join(folder, "fencerow.1"), filepath.Join(folder, "other.txt")
	writeText(t, mine, "my notes")
	refused := func(args ...string) string {
		t.Helper()
		var talk bytes.Buffer
		if code := run(append([]string{"manual", "--out", folder}, args...), io.Discard, &talk); code != exitUsage {
			t.Errorf("ends with %d: %s", code, talk.String())
		}
		if pages, _ := filepath.Glob(filepath.Join(folder, "*.[17]")); len(pages) != 1 {
			t.Errorf("written all the same: %v", pages)
		}
		return talk.String()
	}
	if said := refused(); !strings.Contains(said, "a file of that name is there") || !strings.Contains(said, "add --force") || fileText(t, mine) != "my notes" {
		t.Errorf("says %s", said)
	}
	if os.Remove(mine); os.Symlink(other, mine) == nil {
		for _, content := range []string{"", "a file elsewhere"} { // a link to nothing, then to a file
			if content != "" {
				writeText(t, other, content)
			}
			if said := refused("--force"); !strings.Contains(said, "it is a link to") {
				t.Errorf("says %s", said)
			}
		}
		if text := fileText(t, other); text != "a file elsewhere" {
			t.Errorf("behind the link: %q", text)
		}
		os.Remove(mine)
	}
	writeText(t, mine, "my notes")
	runs(t, "manual", "--out", folder, "--force")
	if text := fileText(t, mine); !strings.Contains(text, ".TH") {
		t.Errorf("with --force: %.40q", text)
	}
}

// TestCompletion: every command and flag that help shows is offered to the shell, and each
// script is one that its shell can read where the shell is there.
func TestCompletion(t *testing.T) {
	offered := func(words ...string) string {
		var out, talk bytes.Buffer
		if code := run(append([]string{"__complete"}, words...), &out, &talk); code != exitDone {
			t.Fatalf("%v: exit %d: %s", words, code, talk.String())
		}
		return "\n" + out.String()
	}
	for _, words := range shownCommands(newRoot(io.Discard, io.Discard)) {
		help := runs(t, append(words, "--help")...)
		long := offered(append(words, "--")...)
		for _, m := range flagOfHelp.FindAllStringSubmatch(help, -1) {
			if !strings.Contains(long, "\n"+m[1]+"\t") && m[1] != "--help" {
				t.Errorf("%v: %s is not offered", words, m[1])
			}
		}
		if len(words) > 0 {
			before := offered(append(words[:len(words)-1:len(words)-1], "")...)
			if name := words[len(words)-1]; !strings.Contains(before, "\n"+name+"\t") {
				t.Errorf("%v is not offered", words)
			}
		}
	}
	for words, want := range map[string]string{"compare --model=": "odds\nhistory\n:4", "rules r": "rapeseed\n:4", "compare a": "yaml\nyml\ncsv\nxlsx\nparquet\n:8", "handout --commodity=lent": "lentils\n:4",
		"batch --county-folder=": ":16", "base --factor=": ":4", "completion z": "zsh\n:4"} {
		if got := offered(strings.Split(words, " ")...); got != "\n"+want+"\n" {
			t.Errorf("%q: %q, want %q", words, got, want)
		}
	}
	for shell, check := range map[string][]string{"bash": {"bash", "-n"}, "zsh": {"zsh", "-n"}, "fish": {"fish", "--no-execute"}, "powershell": nil} {
		script := writeText(t, filepath.Join(t.TempDir(), shell), runs(t, "completion", shell))
		if !strings.Contains(fileText(t, script), "__complete") {
			t.Errorf("the script of %s does not ask the program", shell)
		}
		if check == nil {
			continue
		}
		if place, err := exec.LookPath(check[0]); err == nil {
			if out, err := exec.Command(place, append(check[1:], script)...).CombinedOutput(); err != nil {
				t.Errorf("%s does not read its script: %v\n%s", shell, err, out)
			}
		}
	}
	for _, wrong := range [][]string{{"completion"}, {"completion", "csh"}, {"manual"}} {
		if code := run(wrong, io.Discard, io.Discard); code != exitUsage {
			t.Errorf("%v: exit %d, want %d", wrong, code, exitUsage)
		}
	}
}

// TestCompletionNamesWhatThereIs: the lists of values name flags and commands of the program.
func TestCompletionNamesWhatThereIs(t *testing.T) {
	flags, commands := map[string]bool{}, map[string]bool{}
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		commands[strings.TrimPrefix(c.CommandPath(), "fencerow ")] = true
		c.Flags().VisitAll(func(f *pflag.Flag) { flags[f.Name] = f.Value.Type() != "bool" })
		for _, sub := range c.Commands() {
			walk(sub)
		}
	}
	walk(newRoot(io.Discard, io.Discard))
	for name := range flagValues {
		if !flags[name] {
			t.Errorf("no command has a flag --%s with a value: take it out of flagValues", name)
		}
	}
	for name := range argumentValues {
		if !commands[name] {
			t.Errorf("there is no command %q: take it out of argumentValues", name)
		}
	}
}

// TestExitCodesAreDocumented: the table of docs/exitcodes.md is the program's own. Renew it with -update.
func TestExitCodesAreDocumented(t *testing.T) {
	var b strings.Builder
	b.WriteString("| code | meaning |\n|---|---|\n")
	for _, e := range exitCodes {
		fmt.Fprintf(&b, "| %d | %s |\n", e.code, e.meaning)
	}
	tableIn(t, root+"/docs/exitcodes.md", b.String(), "TestExitCodesAreDocumented")
}

// tableIn holds the first table of a document to what the program says.
func tableIn(t *testing.T, path, want, test string) {
	t.Helper()
	text := fileText(t, path)
	table := regexp.MustCompile(`(?m)^(\|.*\n)+`)
	if *update {
		at := table.FindStringIndex(text)
		if at == nil {
			t.Fatalf("%s has no table", path)
		}
		text = text[:at[0]] + want + text[at[1]:]
		writeText(t, path, text)
	}
	if got := table.FindString(text); got != want {
		t.Errorf("the first table of %s is not what the program says: renew it with go test ./cmd/fencerow -run %s -update\n%s", path, test, want)
	}
}
