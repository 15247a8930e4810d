package chart

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// Write draws the figure into dir/name.svg and dir/name.png, making the directory
// if need be, and returns their paths. An error names the file.
func (f *Figure) Write(dir, name string) ([]string, error) {
	path := filepath.Join(dir, name)
	if name == "" || filepath.Base(name) != name {
		return nil, fmt.Errorf("chart %q: the name of a file without folders is wanted", name)
	}
	svg, err := f.svg()
	if err != nil {
		return nil, fmt.Errorf("chart %s: %w", path, err)
	}
	png, err := f.png()
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

func (f *Figure) svg() ([]byte, error) {
	c := vgsvg.New(pageWidth, pageHeight)
	if err := f.draw(c); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return nil, err
	}
	// A viewer without the font takes one of the same widths.
	return bytes.ReplaceAll(b.Bytes(), []byte("font-family:Liberation Sans;"),
		[]byte("font-family:'Liberation Sans',Arial,Helvetica,sans-serif;")), nil
}

func (f *Figure) png() ([]byte, error) {
	c := vgimg.NewWith(vgimg.UseWH(pageWidth, pageHeight), vgimg.UseDPI(96))
	if err := f.draw(c); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	_, err := vgimg.PngCanvas{Canvas: c}.WriteTo(&b)
	return b.Bytes(), err
}
