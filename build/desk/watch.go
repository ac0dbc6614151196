package desk

// Watching the guide's folder: every folder in it, and those made later.

import (
	"context"
	"io/fs"
	"path/filepath"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

// settle is how long the folder must be quiet before it is read: editors save
// a file in several steps.
const settle = 150 * time.Millisecond

// Watch refreshes the desk whenever the guide's folder changes, until the
// context ends, and calls told after each refresh. The error is ours. A guide
// without a folder never changes.
func (d *Desk) Watch(ctx context.Context, told func(State)) error {
	if d.options.Source.Dir == "" {
		<-ctx.Done()
		return nil
	}
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return err
	}
	defer w.Close()
	if err := watchAll(w, d.options.Source.Dir); err != nil {
		return err
	}
	quiet := time.NewTimer(time.Hour)
	quiet.Stop()
	for {
		select {
		case <-ctx.Done():
			return nil
		case e, ok := <-w.Events:
			if !ok {
				return nil
			}
			if passedOver(e.Name) {
				continue
			}
			if e.Has(fsnotify.Create) {
				_ = watchAll(w, e.Name) // it may be gone again, or be no folder
			}
			quiet.Reset(settle)
		case err, ok := <-w.Errors:
			if !ok {
				return nil
			}
			return err
		case <-quiet.C:
			told(d.Refresh())
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
