package build

// Which guide a run works on: the one named, else the one in this folder, else
// the demo that comes with the program.

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"guidegen/content/demo"
)

// How says how a guide was chosen.
type How string

// The ways of choosing a guide.
const (
	Named How = "the guide named"
	Here  How = "the guide in this folder"
	Demo  How = "the demo guide"
)

// Source is a guide's files and how they were chosen.
type Source struct {
	Files fs.FS
	Dir   string // the folder on disk; "" for the demo
	How   How
	root  *os.Root
	whole string // Dir from the top of the file system
}

// Misuse is a fault of neither the guide nor the program: what was asked for
// can't be done. The user has to ask for something else.
type Misuse struct{ What string }

func (m *Misuse) Error() string { return m.What }

// Misused words a Misuse.
func Misused(format string, a ...any) error { return &Misuse{fmt.Sprintf(format, a...)} }

// guideFile is what makes a folder a guide.
const guideFile = "guide.yaml"

// Find chooses a guide: the folder of that name, or with an empty name the
// guide in the folder here, or where that is none the demo. The error is a
// *Misuse where there is no such folder. Close the source when done with it.
func Find(name, here string) (*Source, error) {
	how, dir := Named, name
	if name == "" {
		how, dir = Here, here
		switch _, err := os.Lstat(filepath.Join(here, guideFile)); {
		case errors.Is(err, fs.ErrNotExist):
			return &Source{Files: demo.FS, How: Demo}, nil
		case err != nil:
			return nil, err
		}
	}
	switch info, err := os.Stat(dir); {
	case errors.Is(err, fs.ErrNotExist):
		return nil, Misused("there is no folder %s", dir)
	case err != nil:
		return nil, err
	case !info.IsDir():
		return nil, Misused("%s is a file; a guide is a folder that holds a %s", dir, guideFile)
	}
	whole, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	s := &Source{Dir: dir, How: how, whole: whole}
	return s, s.Again()
}

// Again opens the folder that stands at the source's place now: another one may have been put there.
func (s *Source) Again() error {
	if s.Dir == "" {
		return nil
	}
	// A root keeps to its folder: a link inside the guide can't lead out of it.
	root, err := os.OpenRoot(s.whole)
	if err != nil {
		return err
	}
	s.Close()
	s.root, s.Files = root, root.FS()
	return nil
}

// Whole is the folder from the top of the file system; "" for the demo.
func (s *Source) Whole() string { return s.whole }

// Close lets go of the folder.
func (s *Source) Close() error {
	if s.root == nil {
		return nil
	}
	return s.root.Close()
}

// String says which guide it is, for the one line that every command prints.
func (s *Source) String() string {
	switch s.How {
	case Demo:
		return "the demo guide, since no guide was named and this folder holds none"
	case Here:
		return "the guide in this folder"
	}
	return "the guide in " + s.Dir
}
