package site

// This file keeps the manifest: the file at the top of every site that says who wrote it and
// lists what was written. It is how a later run knows the site for its own, and how anybody can
// check that a copy is complete.

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
)

// ManifestName is the manifest's address in the site.
const ManifestName = ".guidegen"

const manifestFormat = 1

// Manifest says who wrote a site, from what, and which files it holds. It is the same, byte for
// byte, for the same input: the date is that of the edition, not of the clock.
type Manifest struct {
	Format    int    `json:"format"`
	Generator string `json:"generator"`      // program and version
	Guide     string `json:"guide"`          // the guide's name
	Edition   string `json:"edition"`        // public or members
	Date      string `json:"date"`           // of the edition, YYYY-MM-DD
	From      string `json:"from,omitempty"` // checksum of what it was made from; "" where that is not known
	Files     []File `json:"files"`          // by address, without the manifest; absent in an unfinished site
}

// File is one file of a site.
type File struct {
	Address string `json:"path"`
	Size    int64  `json:"size"` // bytes
	SHA256  string `json:"sha256"`
}

func fileOf(address string, data []byte) File {
	sum := sha256.Sum256(data)
	return File{Address: address, Size: int64(len(data)), SHA256: hex.EncodeToString(sum[:])}
}

func (m Manifest) bytes() []byte {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	if err := enc.Encode(m); err != nil {
		panic(err) // a struct of strings and numbers
	}
	return out.Bytes()
}

// ReadManifest reads the manifest of the site in a folder. The error is fs.ErrNotExist where
// there is none.
func ReadManifest(dir string) (Manifest, error) {
	name := filepath.Join(dir, ManifestName)
	data, err := os.ReadFile(name)
	if err != nil {
		return Manifest{}, err
	}
	var m Manifest
	if err := json.Unmarshal(data, &m); err != nil || m.Format < 1 {
		return Manifest{}, fmt.Errorf("%s: not a manifest of guidegen", name)
	}
	return m, nil
}

// Pages counts the files that are pages.
func (m Manifest) Pages() (n int) {
	for _, f := range m.Files {
		if path.Ext(f.Address) == ".html" {
			n++
		}
	}
	return n
}

// Stands reports whether a folder holds the manifest's files, byte for byte, and no others.
func (m Manifest) Stands(dir string) bool {
	want := map[string]File{}
	for _, f := range m.Files {
		want[f.Address] = f
	}
	site := os.DirFS(dir)
	err := fs.WalkDir(site, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || name == ManifestName {
			return err
		}
		data, err := fs.ReadFile(site, name)
		if err == nil && want[name] != fileOf(name, data) {
			err = fs.ErrInvalid
		}
		delete(want, name)
		return err
	})
	return err == nil && len(want) == 0
}

// Since says what an upload has to move where the site of an earlier manifest stands already: the files that are new or
// other, their bytes, and how many are gone. The manifest itself is not counted.
func (m Manifest) Since(before Manifest) (changed int, bytes int64, gone int) {
	was := map[string]File{}
	for _, f := range before.Files {
		was[f.Address] = f
	}
	for _, f := range m.Files {
		if was[f.Address] != f {
			changed++
			bytes += f.Size
		}
		delete(was, f.Address)
	}
	return changed, bytes, len(was)
}

// holds reports whether the address is one of the site's files, or a folder on the way to one.
func (m Manifest) holds() func(address string) bool {
	known := map[string]bool{ManifestName: true}
	for _, f := range m.Files {
		for a := f.Address; !known[a]; a = a[:strings.LastIndexByte(a, '/')] {
			known[a] = true
			if !strings.Contains(a, "/") {
				break
			}
		}
	}
	return func(address string) bool { return known[address] }
}
