package jobfile_test

import (
	"os"
	"strings"
	"testing"

	"example.org/forkcurve/spring/conversion"
)

// The job that the package comment shows is one.
func TestDocumentedJob(t *testing.T) {
	source, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	var job strings.Builder
	for line := range strings.Lines(string(source)) {
		if text, ok := strings.CutPrefix(line, "//\t"); ok {
			job.WriteString(text)
		} else if strings.TrimSpace(line) == "//" {
			job.WriteString("\n")
		}
	}
	f, err := decode(job.String())
	if err != nil {
		t.Fatalf("%v\n%s", err, job.String())
	}
	if _, err := conversion.Plan(f.Job); err != nil {
		t.Error(err)
	}
}
