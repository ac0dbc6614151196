package desk

// Watching the guide's folder: every folder in it, and those made later.

import (
	"context"
	"errors"
	"io/fs"
	"path/filepath"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

// settle is how long the folder must be quiet before it is read: editors save
// a file in several steps.
const settle = 150 * time.Millisecond

// Watch refreshes the desk whenever the guide's folder changes, or another one is put in its place, until the
// context ends. The error is ours. A guide without a folder never changes.
func (d *Desk) Watch(ctx context.Context) error {
	dir := d.options.Source.Whole()
	for dir != "" && ctx.Err() == nil {
		if err := d.watch(ctx, dir); err != nil {
			return err
		}
	}
	<-ctx.Done()
	return nil
}

// watch is Watch until the folder itself comes or goes.
func (d *Desk) watch(ctx context.Context, dir string) error {
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return err
	}
	defer w.Close()
	if err := w.Add(filepath.Dir(dir)); err != nil {
		return err
	}
	if err := watchAll(w, dir); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	quiet := time.NewTimer(time.Hour)
	quiet.Stop()
	replaced := false
	for {
		select {
		case <-ctx.Done():
			return nil
		case e, ok := <-w.Events:
			if !ok {
				return nil
			}
			switch rest, inside := strings.CutPrefix(e.Name, dir); {
			case inside && rest == "":
				replaced = replaced || e.Has(fsnotify.Create|fsnotify.Remove|fsnotify.Rename)
				if !replaced {
					continue
				}
			case !inside || !strings.HasPrefix(rest, string(filepath.Separator)) || passedOver(e.Name):
				continue // beside the guide, or no part of it
			case e.Has(fsnotify.Create):
				_ = watchAll(w, e.Name) // it may be gone again, or be no folder
			}
			quiet.Reset(settle)
		case err, ok := <-w.Errors:
			if !ok {
				return nil
			}
			return err
		case <-quiet.C:
			d.Refresh()
			if replaced {
				return nil
			}
		}
	}
}

// watchAll watches a folder and all in it.
func watchAll(w *fsnotify.Watcher, dir string) error {
	return filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if !e.IsDir() {
			return nil
		}
		if p != dir && passedOver(p) {
			return fs.SkipDir
		}
		return w.Add(p)
	})
}

// passedOver reports names that are no part of a guide: published sites, and
// what editors leave while they work.
func passedOver(p string) bool {
	name := filepath.Base(p)
	return strings.HasPrefix(name, ".") && name != "." || strings.HasSuffix(name, "~") || strings.HasSuffix(name, ".tmp") ||
		strings.HasSuffix(name, ".swp") || name == "published" || name == "published-members"
}
