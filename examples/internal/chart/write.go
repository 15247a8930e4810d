package chart

import (
	"fmt"
	"os"
	"path/filepath"

	"example.org/forkcurve/examples/internal/picture"
)

// Write draws the figure into dir/name.svg and dir/name.png, making the directory
// if need be, and returns their paths. An error names the file.
func (f *Figure) Write(dir, name string) ([]string, error) {
	path := filepath.Join(dir, name)
	if name == "" || filepath.Base(name) != name {
		return nil, fmt.Errorf("chart %q: the name of a file without folders is wanted", name)
	}
	svg, err := f.SVG()
	if err != nil {
		return nil, fmt.Errorf("chart %s: %w", path, err)
	}
	png, err := f.PNG()
	if err != nil {
		return nil, fmt.Errorf("chart %s: %w", path, err)
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, fmt.Errorf("chart %s: %w", path, err)
	}
	var paths []string
	for _, file := range []struct {
		ext  string
		data []byte
	}{{".svg", svg}, {".png", png}} {
		if err := os.WriteFile(path+file.ext, file.data, 0o666); err != nil {
			return nil, fmt.Errorf("chart: %w", err)
		}
		paths = append(paths, path+file.ext)
	}
	return paths, nil
}

// SVG is the figure as such a file.
func (f *Figure) SVG() ([]byte, error) { return picture.SVG(pageWidth, pageHeight, f.draw) }

// PNG is the figure as such a file, of 900 × 600 pixels.
func (f *Figure) PNG() ([]byte, error) { return picture.PNG(pageWidth, pageHeight, f.draw) }
