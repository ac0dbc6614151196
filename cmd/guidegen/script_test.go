package main

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"guidegen": main})
}

// The scripts run the program as a person does. Two commands are added:
//
//	digest DIR     prints a checksum of every file below DIR, one a line; nothing where there is no DIR
//	status N CMD   runs CMD and fails unless its exit status is N
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.FromSlash("../../testdata/script"),
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			// $BIN is the folder of guidegen alone, for a path on which nothing else is.
			e.Setenv("BIN", filepath.SplitList(e.Getenv("PATH"))[0])
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"digest": digest,
			"status": status,
		},
	})
}

func digest(ts *testscript.TestScript, _ bool, args []string) {
	if len(args) != 1 {
		ts.Fatalf("usage: digest DIR")
	}
	root := ts.MkAbs(args[0])
	err := filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if os.IsNotExist(err) && p == root {
			return nil
		}
		if err != nil || d.IsDir() {
			return err
		}
		b, err := os.ReadFile(p)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, p)
		fmt.Fprintf(ts.Stdout(), "%x %s\n", sha256.Sum256(b), filepath.ToSlash(rel))
		return err
	})
	ts.Check(err)
}

func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N CMD…")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec(args[1], args[2:]...)
	got := 0
	if exit, ok := err.(*exec.ExitError); ok {
		got = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}
