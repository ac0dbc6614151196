package site

// This file puts a finished stage in the old site's place in one step, and clears up after runs
// that died on the way. At every moment the target is the whole old site or the whole new one;
// only where folders can't be exchanged is it gone for the blink between two renames, and a run
// that dies there is repaired by the next.

import (
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
)

// Swap verifies what was noted, writes the manifest and puts the site in place. On an error,
// which is of type Failures if the verification failed, the old site stays as it was.
func (s *Stage) Swap() error {
	if failures := s.Verify(); len(failures) > 0 {
		return failures
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.err != nil {
		return s.err
	}
	if err := s.finish(); err != nil {
		return s.inFull(err)
	}
	if err := s.exchange(); err != nil {
		return s.inFull(err)
	}
	s.swapped = true
	// The site is in place: what fails from here on is left to the next run.
	syncDir(s.parent)
	if s.clear(s.stage) == nil {
		_ = s.clear(s.aside)
	}
	return nil
}

// finish completes the stage and waits until it is on the disk: otherwise a power cut could
// leave a swapped site of empty files.
func (s *Stage) finish() error {
	if err := s.step("complete the manifest"); err != nil {
		return err
	}
	// Renamed over the first one: without a manifest the next run would not know the stage for ours.
	const complete = ManifestName + ".complete"
	if err := s.create(complete, s.manifest().bytes()); err != nil {
		return err
	}
	if err := s.step("replace the manifest"); err != nil {
		return err
	}
	if err := s.root.Rename(path.Join(s.stage, complete), path.Join(s.stage, ManifestName)); err != nil {
		return err
	}
	if err := s.root.Chmod(s.stage, s.mode); err != nil {
		return err
	}
	if err := s.step("settle"); err != nil {
		return err
	}
	return settle(s.path(s.stage))
}

func (s *Stage) path(name string) string { return filepath.Join(s.parent, name) }

func (s *Stage) exchange() error {
	if err := s.step("swap"); err != nil {
		return err
	}
	_, err := s.root.Lstat(s.target)
	if errors.Is(err, fs.ErrNotExist) {
		return s.swapError(s.root.Rename(s.stage, s.target))
	}
	if err != nil {
		return err
	}
	err = errors.ErrUnsupported
	if !s.noExchange {
		err = exchange(s.path(s.stage), s.path(s.target))
	}
	// File systems without it say EINVAL, and so do old kernels' filters say EPERM.
	if errors.Is(err, errors.ErrUnsupported) || errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.EPERM) {
		return s.swapError(s.passAside())
	}
	if err != nil {
		err = &os.LinkError{Op: "exchange", Old: s.path(s.stage), New: s.path(s.target), Err: err}
	}
	return s.swapError(err)
}

// passAside renames the old site aside and the new one in.
func (s *Stage) passAside() error {
	if err := s.root.Rename(s.target, s.aside); err != nil {
		return err
	}
	err := s.step("rename in")
	if err == nil {
		err = s.root.Rename(s.stage, s.target)
	}
	if err != nil {
		return errors.Join(err, s.root.Rename(s.aside, s.target))
	}
	return nil
}

func (s *Stage) swapError(err error) error {
	if errors.Is(err, syscall.EBUSY) || errors.Is(err, syscall.EXDEV) {
		return &Refusal{s.plan.Target, mountAdvice(s.plan.Target)}
	}
	return err
}

// repair puts back an old site that was left aside, and clears what else a dead run left.
func (s *Stage) repair() error {
	if _, err := s.root.Lstat(s.aside); err == nil {
		entries, err := os.ReadDir(s.path(s.target))
		if err == nil && len(entries) == 0 {
			err = errors.Join(s.root.Remove(s.target), fs.ErrNotExist)
		}
		switch {
		case errors.Is(err, fs.ErrNotExist):
			if err := s.step("repair"); err != nil {
				return err
			}
			if err := s.root.Rename(s.aside, s.target); err != nil {
				return err
			}
		default:
			if err := s.clear(s.aside); err != nil {
				return err
			}
		}
	}
	return s.clear(s.stage)
}

// clear removes a folder of ours. Its manifest goes last, so that what a dying run leaves is
// still known for ours; a folder of that name without one is refused unless it is empty.
func (s *Stage) clear(name string) error {
	dir, err := s.root.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	names, err := dir.Readdirnames(-1)
	dir.Close()
	if err != nil {
		return err
	}
	if len(names) > 0 {
		if _, err := s.root.Lstat(path.Join(name, ManifestName)); err != nil {
			return &Refusal{s.path(name), "in the way, and not written by guidegen; move it away"}
		}
	}
	for _, inner := range append(slices.DeleteFunc(names, func(n string) bool { return n == ManifestName }), ManifestName, ".") {
		if err := s.step("clear"); err != nil {
			return err
		}
		if err := s.removeAll(path.Join(name, inner)); err != nil {
			return err
		}
	}
	return nil
}

// removeAll removes a folder of ours, or a file in it, even where somebody took the
// leave to write from its folders: a site may be kept read-only against slips of the hand.
func (s *Stage) removeAll(name string) error {
	err := s.root.RemoveAll(name)
	if !errors.Is(err, fs.ErrPermission) {
		return err
	}
	top, _, _ := strings.Cut(name, "/")
	_ = fs.WalkDir(s.root.FS(), top, func(p string, d fs.DirEntry, err error) error {
		if err == nil && d.IsDir() {
			_ = s.root.Chmod(p, 0o755) // what remains refused, RemoveAll tells
		}
		return nil
	})
	return s.root.RemoveAll(name)
}
