package units_test

import (
	"errors"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// exports finds the compiled form of a package this one depends on, or of itself.
func exports(t *testing.T) func(path string) (io.ReadCloser, error) {
	t.Helper()
	if _, err := exec.LookPath("go"); err != nil {
		t.Skip("the go tool is not here")
	}
	out, err := exec.Command("go", "list", "-export", "-deps", "-f", "{{.ImportPath}}={{.Export}}", ".").Output()
	if err != nil {
		t.Fatal(err)
	}
	files := make(map[string]string)
	for line := range strings.Lines(string(out)) {
		path, file, _ := strings.Cut(strings.TrimSpace(line), "=")
		files[path] = file
	}
	return func(path string) (io.ReadCloser, error) {
		if files[path] == "" {
			return nil, errors.New("no export data of " + path)
		}
		return os.Open(files[path])
	}
}

func TestMustNotCompile(t *testing.T) {
	tests := []struct {
		name, body string
		compiles   bool
		message    string // part of the type checker's
	}{
		{name: "control", compiles: true, body: `
			_ = gauge.Absolute(absolute).Sub(absolute) + pressure
			_ = temperature.Add(interval).Sub(temperature) + interval
			_ = length + 2*units.Millimeter
			_ = gauge == gauge && absolute == absolute && temperature == temperature
			_, _ = units.Parse[units.GaugePressure]("9.6 bar")`},
		{name: "gauge as absolute", body: `absolute = gauge`, message: "cannot use gauge"},
		{name: "absolute as gauge", body: `gauge = absolute`, message: "cannot use absolute"},
		{name: "gauge as ambient", body: `_ = gauge.Absolute(gauge)`, message: "cannot use gauge"},
		{name: "gauge made absolute", body: `_ = units.AbsolutePressure(gauge)`, message: "cannot convert gauge"},
		{name: "absolute made gauge", body: `_ = units.GaugePressure(absolute)`, message: "cannot convert absolute"},
		{name: "temperature made pressure", body: `_ = units.GaugePressure(temperature)`, message: "cannot convert"},
		{name: "pressure made temperature", body: `_ = units.Temperature(absolute)`, message: "cannot convert absolute"},
		{name: "gauge compared with absolute", body: `_ = gauge == absolute`, message: "mismatched types"},
		{name: "gauge without ambient", body: `_ = gauge.Absolute()`, message: "not enough arguments"},
		{name: "difference as gauge", body: `gauge = pressure`, message: "cannot use pressure"},
		{name: "difference made absolute", body: `_ = units.AbsolutePressure(pressure)`, message: "cannot convert pressure"},
		{name: "difference minus gauge", body: `_ = absolute.Sub(gauge)`, message: "cannot use gauge"},
		{name: "sum of gauges", body: `_ = gauge + gauge`, message: "operator + not defined"},
		{name: "temperature as interval", body: `interval = temperature`, message: "cannot use temperature"},
		{name: "interval as temperature", body: `temperature = interval`, message: "cannot use interval"},
		{name: "temperature plus temperature", body: `_ = temperature.Add(temperature)`, message: "cannot use temperature"},
		{name: "temperature plus interval", body: `_ = temperature + interval`, message: "mismatched types"},
		{name: "number as temperature", body: `temperature = 20`, message: "cannot use 20"},
		{name: "number converted into temperature", body: `_ = units.Temperature(20)`, message: "cannot convert 20"},
		{name: "field of a point", body: `_ = gauge.gauge`, message: "gauge.gauge undefined"},
		{name: "length plus force", body: `_ = length + force`, message: "mismatched types"},
		{name: "length in newtons", body: `_ = length.In(units.Newton)`, message: "cannot use units.Newton"},
		{name: "stress as pressure", body: `pressure = stress`, message: "cannot use stress"},
		{name: "parse into a plain number", body: `_, _ = units.Parse[float64]("1")`, message: "float64 does not satisfy"},
	}
	lookup := exports(t)
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			source := `package p
				import "example.org/forkcurve/units"
				func f(gauge units.GaugePressure, absolute units.AbsolutePressure, pressure units.Pressure,
					temperature units.Temperature, interval units.TemperatureDifference,
					length units.Length, force units.Force, stress units.Stress) {
					` + tt.body + `
				}`
			files := token.NewFileSet()
			file, err := parser.ParseFile(files, "p.go", source, 0)
			if err != nil {
				t.Fatal(err)
			}
			config := types.Config{Importer: importer.ForCompiler(files, "gc", lookup)}
			_, err = config.Check("p", files, []*ast.File{file}, nil)
			switch {
			case tt.compiles && err != nil:
				t.Fatal(err)
			case !tt.compiles && err == nil:
				t.Errorf("%q compiles", tt.body)
			case !tt.compiles && !strings.Contains(err.Error(), tt.message):
				t.Errorf("%q fails with %q, want %q", tt.body, err, tt.message)
			}
		})
	}
}

// methods.go is what go generate writes.
func TestGeneratedMethodsAreCurrent(t *testing.T) {
	if _, err := exec.LookPath("go"); err != nil {
		t.Skip("the go tool is not here")
	}
	fresh := t.TempDir() + "/methods.go"
	command := exec.Command("go", "run", "generate.go", "-o", fresh)
	command.Env = append(os.Environ(), "GOOS=", "GOARCH=")
	if out, err := command.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	want, err := os.ReadFile(fresh)
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile("methods.go")
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != string(want) {
		t.Error("methods.go is out of date: run go generate")
	}
}
