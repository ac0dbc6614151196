package main

// A guide with some of its files replaced, so that what is about to be written
// can be read by the same readers first.

import (
	"bytes"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"
)

// overlay is a file system whose files stand before those of the one below.
type overlay struct {
	below fs.FS
	files map[string][]byte // by path; their folders need not exist below
}

// Open opens a file of either; folders are those below and those of the files.
func (o overlay) Open(name string) (fs.File, error) {
	if b, ok := o.files[name]; ok {
		return &openFile{Reader: bytes.NewReader(b), info: fileInfo{path.Base(name), int64(len(b)), false}}, nil
	}
	f, err := o.below.Open(name)
	if err != nil && o.isDir(name) {
		return &openFile{Reader: bytes.NewReader(nil), info: fileInfo{path.Base(name), 0, true}}, nil
	}
	return f, err
}

func (o overlay) isDir(name string) bool {
	for p := range o.files {
		if strings.HasPrefix(p, name+"/") {
			return true
		}
	}
	return false
}

// ReadDir lists a folder, what is laid over it included, by name.
func (o overlay) ReadDir(dir string) ([]fs.DirEntry, error) {
	list, err := fs.ReadDir(o.below, dir)
	if err != nil && !o.isDir(dir) && dir != "." {
		return nil, err
	}
	for p, b := range o.files {
		rest, ok := strings.CutPrefix(p, dir+"/")
		if dir == "." {
			rest, ok = p, true
		}
		if !ok {
			continue
		}
		name, _, deeper := strings.Cut(rest, "/")
		info := fileInfo{name, int64(len(b)), deeper}
		i := slices.IndexFunc(list, func(e fs.DirEntry) bool { return e.Name() == name })
		switch {
		case i < 0:
			list = append(list, fs.FileInfoToDirEntry(info))
		case !deeper:
			list[i] = fs.FileInfoToDirEntry(info)
		}
	}
	slices.SortFunc(list, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	return list, nil
}

type openFile struct {
	*bytes.Reader
	info fileInfo
}

func (f *openFile) Stat() (fs.FileInfo, error) { return f.info, nil }
func (f *openFile) Close() error               { return nil }

type fileInfo struct {
	name string
	size int64
	dir  bool
}

func (i fileInfo) Name() string       { return i.name }
func (i fileInfo) Size() int64        { return i.size }
func (i fileInfo) IsDir() bool        { return i.dir }
func (i fileInfo) ModTime() time.Time { return time.Time{} }
func (i fileInfo) Sys() any           { return nil }
func (i fileInfo) Mode() fs.FileMode {
	if i.dir {
		return fs.ModeDir | 0o755
	}
	return 0o644
}
