package program

import (
	"fmt"
	"os"
	"path/filepath"
)

// Folder is where a program writes files, if it was given one.
type Folder struct {
	p    *Program
	path *string
}

// Folder declares a flag that names a folder.
func (p *Program) Folder(name, usage string) Folder { return Folder{p, p.Text(name, "", usage)} }

// Given reports whether there is a folder to write into.
func (f Folder) Given() bool { return *f.path != "" }

// Save writes a file, making the folder if need be, and tells that it did.
func (f Folder) Save(name string, content []byte) error {
	if name == "" || filepath.Base(name) != name {
		return fmt.Errorf("file %q: the name of a file without folders is wanted", name)
	}
	path := filepath.Join(*f.path, name)
	if err := os.MkdirAll(*f.path, 0o777); err != nil {
		return fmt.Errorf("writing %s: %w", path, err)
	}
	if err := os.WriteFile(path, content, 0o666); err != nil {
		return err
	}
	_, err := fmt.Fprintln(f.p.Problems, "wrote", path)
	return err
}

// Picture is what can be drawn as a file.
type Picture interface {
	SVG() ([]byte, error)
	PNG() ([]byte, error)
}

// Draw writes a picture as name.svg and name.png. Without a folder it draws nothing.
func (f Folder) Draw(name string, picture Picture) error {
	if !f.Given() {
		return nil
	}
	for _, kind := range []struct {
		ext  string
		file func() ([]byte, error)
	}{{".svg", picture.SVG}, {".png", picture.PNG}} {
		content, err := kind.file()
		if err != nil {
			return fmt.Errorf("picture %s: %w", name, err)
		}
		if err := f.Save(name+kind.ext, content); err != nil {
			return err
		}
	}
	return nil
}
