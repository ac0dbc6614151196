package main

// guidegen blank: an empty form of an account, a water, a sheet or a dressing, a
// starter guide, or the schemas. What is there already is never overwritten.

import (
	"bytes"
	"cmp"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"golang.org/x/text/language"

	"guidegen/build"
	"guidegen/build/lang"
	"guidegen/content"
	"guidegen/content/calendar"
)

//go:embed all:starter
var starterFiles embed.FS

// starter is the guide that `blank guide` writes.
func starter() fs.FS {
	sub, err := fs.Sub(starterFiles, "starter")
	must(err) // only an invalid path could do this, and ours is a constant
	return sub
}

var blankKinds = []string{"account", "water", "sheet", "dressing", "guide", "schema", "words"}

func (c *command) blank() *cobra.Command {
	var s shared
	var out string
	cmd := &cobra.Command{
		Use:   "blank account|water|sheet|dressing|guide|schema|words [NAME]",
		Short: "write an empty form, or a guide to start from",
		Long: `Writes an empty form: an account of a fly, a river record, a sheet for visits, or
a dressing, each named NAME and put where it belongs in the guide. "blank guide"
writes a small guide to start from into the folder NAME, and "blank schema" the
JSON Schemas by which an editor checks the files while they are typed. "blank
words nl" writes the site's words into words/nl.yaml, to be put into Dutch.

Nothing is ever overwritten.`,
		Example: `  guidegen blank guide our-guide
  guidegen blank account "Pale watery" --guide our-guide
  guidegen blank sheet "Lorrow Brook 2027"`,
		Args:      most(1, "one of: "+strings.Join(blankKinds, ", "), "NAME"),
		ValidArgs: blankKinds,
		RunE: func(_ *cobra.Command, args []string) error {
			kind, name := args[0], ""
			if len(args) > 1 {
				name = args[1]
			}
			switch kind {
			case "guide":
				if name != "" && out != "" {
					return build.Misused("the folder is named twice: %s and --out %s", name, out)
				}
				return c.blankFolder(cmp.Or(name, out, "our-guide"), starterTree)
			case "words":
				return c.blankWords(name, s.guide, out)
			case "schema":
				if name != "" {
					return build.Misused("blank schema takes no name; --out names its folder")
				}
				src, err := build.Find(s.guide, c.here)
				if err != nil {
					return err
				}
				defer src.Close()
				return c.blankFolder(cmp.Or(out, filepath.Join(src.Dir, schemaFolder)), schemaTree)
			}
			f, ok := forms[kind]
			if !ok {
				return build.Misused("there is no form for %q%s\nwrite one of: %s", kind, content.DidYouMean(kind, blankKinds), strings.Join(blankKinds, ", "))
			}
			return c.blankForm(f, name, s.guide, out)
		},
	}
	s.flags(cmd, "guide")
	cmd.Flags().StringVar(&out, "out", "", "the `file` or folder to write, - for the terminal")
	return cmd
}

// blankWords writes the site's words for a language into the guide.
func (c *command) blankWords(name, guide, out string) error {
	tag, err := language.Parse(name)
	if err != nil {
		return build.Misused("%q isn't a language tag; write one such as de, cy or pt-BR", name)
	}
	text, err := lang.BlankWords(tag)
	if err != nil {
		return err
	}
	return c.blankForm(form{"words", ".yaml", name, func(string) []byte { return text }}, name, guide, out)
}

// blankForm writes one form into the guide, or into this folder where that is no guide.
func (c *command) blankForm(f form, name, guide, out string) error {
	name = cmp.Or(strings.TrimSpace(name), f.name)
	text := f.text(name)
	if f.folder == "samples" { // as the guide's own sheets are written
		src, err := build.Find(guide, c.here)
		if err != nil {
			return err
		}
		defer src.Close()
		if g, err := build.Read(src, calendar.Date{}, &content.Problems{}); err == nil && src.Dir != "" {
			text = bytes.ReplaceAll(text, []byte(","), []byte(string(g.Settings.Sheets.Comma())))
		}
	}
	if out == "-" {
		_, err := c.out.Write(text)
		return err
	}
	if out == "" {
		slug := content.Address(name)
		if f.folder == "words" {
			slug = name // a language tag
		}
		if slug == "" {
			return build.Misused("the name %q holds no letters or digits to name a file by", name)
		}
		out = slug + f.ending
		src, err := build.Find(guide, c.here)
		if err != nil {
			return err
		}
		defer src.Close()
		if src.Dir != "" {
			out = filepath.Join(src.Dir, f.folder, out)
		}
	}
	if err := os.MkdirAll(filepath.Dir(out), 0o755); err != nil {
		return err
	}
	if err := create(out, text); err != nil {
		return err
	}
	fmt.Fprintf(c.out, "wrote %s\n", filepath.ToSlash(out))
	return nil
}

// create writes a file that must not be there yet. A file half written is removed.
func create(name string, text []byte) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return build.Misused("%s is there already; give another name, or move it away", name)
	}
	if err != nil {
		return err
	}
	_, err = f.Write(text)
	if err = errors.Join(err, f.Close()); err != nil {
		os.Remove(name)
	}
	return err
}

// tree is a folder to be written: paths with slashes and their texts.
type tree func() (map[string][]byte, error)

func starterTree() (map[string][]byte, error) {
	files := map[string][]byte{}
	err := fs.WalkDir(starter(), ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		files[p], err = fs.ReadFile(starter(), p)
		return err
	})
	return files, err
}

// blankFolder writes a whole folder at once: beside its place first, so that
// no half of it is ever there.
func (c *command) blankFolder(dir string, t tree) error {
	if entries, err := os.ReadDir(dir); err == nil && len(entries) > 0 {
		return build.Misused("%s is there already and not empty; give another name, or move it away", dir)
	} else if err != nil && !errors.Is(err, fs.ErrNotExist) {
		if info, e := os.Stat(dir); e == nil && !info.IsDir() {
			return build.Misused("%s is there already; give another name, or move it away", dir)
		}
		return err
	}
	files, err := t()
	if err != nil {
		return err
	}
	full, err := filepath.Abs(dir)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
		return err
	}
	stage, err := os.MkdirTemp(filepath.Dir(full), ".blank-*")
	if err != nil {
		return err
	}
	defer os.RemoveAll(stage)
	for p, b := range files {
		name := filepath.Join(stage, filepath.FromSlash(p))
		if err := os.MkdirAll(path.Dir(filepath.ToSlash(name)), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(name, bytes.Clone(b), 0o644); err != nil {
			return err
		}
	}
	if err := os.Chmod(stage, 0o755); err != nil {
		return err
	}
	if err := os.Remove(full); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err // an empty folder stood there
	}
	if err := os.Rename(stage, full); err != nil {
		return err
	}
	fmt.Fprintf(c.out, "wrote %s: %s\n", filepath.ToSlash(dir), several(len(files), "file"))
	return nil
}
