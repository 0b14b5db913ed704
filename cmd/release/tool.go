package main

import (
	"os"
	"os/exec"
	"strings"
)

// folder is the top of the repository, where the command is run.
var folder = "."

// command is a program run at the top of the repository, with further variables of the
// environment. What would make two builds differ is fixed.
func command(environment []string, name string, args ...string) *exec.Cmd {
	c := exec.Command(name, args...)
	c.Dir = folder
	c.Env = append(os.Environ(), "CGO_ENABLED=0", "GOFLAGS=-mod=readonly -buildvcs=false", "GOTOOLCHAIN=local", "GOAMD64=v1", "GOARM64=v8.0")
	c.Env = append(c.Env, environment...)
	c.Stderr = os.Stderr
	return c
}

// goTool runs go and returns what it prints.
func goTool(environment []string, args ...string) ([]byte, error) {
	return command(environment, "go", args...).Output()
}

// commitOf is the commit of the repository, "" where git does not know.
func commitOf() string {
	out, err := command(nil, "git", "rev-parse", "HEAD").Output()
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(out))
}
