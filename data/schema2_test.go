package data_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// TestSpreadFaults: each bad input to what is new in schema 2 is one fault with its line.
func TestSpreadFaults(t *testing.T) {
	example := schemaExample(t)
	head, _, _ := strings.Cut(example, "\n[fork.mine]")
	specimen := head + "\n[specimen.one]\nname = \"one\"\nsource = \"bench\"\ntravel = \"100 mm\"\n"
	for _, tc := range []struct{ name, text, want string }{
		{"low above high", strings.Replace(example, `rod = "12 mm"`,
			`rod = { value = "12 mm", low = "14 mm", high = "10 mm", means = "shelf" }`, 1),
			`fork.mine.left.air.rod.low = "14 mm": want low below high`},
		{"value outside", strings.Replace(example, `rod = "12 mm"`,
			`rod = { value = "12 mm", low = "13 mm", high = "14 mm", means = "shelf" }`, 1),
			`fork.mine.left.air.rod.value = "12 mm": want a value from low to high`},
		{"n of 0", strings.Replace(example, `rod = "12 mm"`,
			`rod = { value = "12 mm", low = "10 mm", high = "14 mm", n = 0, means = "shelf" }`, 1),
			`fork.mine.left.air.rod.n = 0: want 1 to 1e+06`},
		{"sd negative", strings.Replace(example, `rod = "12 mm"`, `rod = { value = "12 mm", sd = "-1 mm" }`, 1),
			`fork.mine.left.air.rod.sd = "-1 mm": want 0 or more`},
		{"range without means", strings.Replace(example, `rod = "12 mm"`,
			`rod = { value = "12 mm", low = "10 mm", high = "14 mm" }`, 1),
			`fork.mine.left.air.rod.low = "10 mm": want means beside it: between-forks, adjuster, shelf or tolerance`},
		{"low alone", strings.Replace(example, `rod = "12 mm"`, `rod = { value = "12 mm", low = "10 mm" }`, 1),
			`fork.mine.left.air.rod.value = "12 mm": want low, high and means beside it`},
		{"sd beside a range", strings.Replace(example, `rod = "12 mm"`,
			`rod = { value = "12 mm", sd = "1 mm", low = "10 mm", high = "14 mm", means = "shelf" }`, 1),
			`fork.mine.left.air.rod.sd = "1 mm": want either sd or a range, from which it follows`},
		{"means", strings.Replace(example, `rod = "12 mm"`,
			`rod = { value = "12 mm", low = "10 mm", high = "14 mm", means = "guess" }`, 1),
			`fork.mine.left.air.rod.means = "guess": want between-forks, adjuster, shelf or tolerance`},
		{"newer schema", "[meta]\nschema = 3\nnew-key = 1\n" + example,
			`meta.schema = 3: want 2 or less: the file was written for a newer version of the library`},
		{"class nobody defined", strings.Replace(example, `use = "motocross"`, "class = \"mopeds\"\nuse = \"motocross\"", 1),
			`fork.mine.class = "mopeds": no class "mopeds"`},
		{"specimen as a base", specimen + "[fork.mine]\nname = \"mine\"\nbased-on = \"one\"\n",
			`fork.mine.based-on = "one": a specimen, of which only some values are known; want a fork`},
		{"base that is nowhere", head + "\n[fork.mine]\nname = \"mine\"\nbased-on = \"M77\"\n",
			`fork.mine.based-on = "M77": no fork "M77"; there is M07, M17, M27, M37`},
		{"cycle", head + "\n[fork.a]\nname = \"a\"\nbased-on = \"b\"\n[fork.b]\nname = \"b\"\nbased-on = \"a\"\n",
			`fork.b.based-on = "a": based on itself`},
		{"base that is a number", head + "\n[fork.a]\nname = \"a\"\nbased-on = 5\n",
			`fork.a.based-on = 5: a number; want a text in quotes`},
		{"base without a coil", head + "\n[fork.a]\nname = \"a\"\nbased-on = \"M07\"\n[fork.a.left]\nrole = \"coil\"\n",
			`fork.a.left.coil: missing; want a table [fork.a.left.coil]`},
		{"judgment in another unit", head + "\n[spread.chassis-rake]\nsd = \"1 mm\"\nsource = \"bench\"\n" +
			"[fork.a]\nname = \"a\"\nbased-on = \"M07\"\nsource = \"bench\"\n[fork.a.chassis]\nwheelbase = \"1400 mm\"\n",
			`fork.a.chassis.rake: spread.chassis-rake: `},
		{"unknown kind", example + "\n[specimens.x]\nname = \"x\"\n", `specimens: unknown key; did you mean specimen?`},
		{"kind of source", strings.Replace(example, `kind = "demo"`, `kind = "guess"`, 1),
			`source.bench.kind = "guess": want measured, standard, open-data, paper, ` +
				"textbook, handbook, common-practice, tuned, memory, demo or derived"},
		{"open data without license", strings.Replace(example, `kind = "demo"`, `kind = "open-data"`, 1),
			`source.bench.license: missing; want a text in quotes`},
		{"tire", strings.Replace(example, `wheel-radius = "345 mm"`, `tire = "21 inch"`, 1),
			`fork.mine.chassis.tire = "21 inch": not a tire size; want one as "80/100-21", "3.00-21" or "58-622"`},
		{"tire of no wheel", strings.Replace(example, `wheel-radius = "345 mm"`, `tire = "52-862"`, 1),
			`fork.mine.chassis.wheel-radius: what the record gives makes it 483.0 mm: want 100 mm to 450 mm`},
		{"control character", strings.Replace(example, `name = "my motocross fork"`, `name = "a\nb"`, 1),
			`fork.mine.name = "a\nb": holds the control character U+000A; want letters, digits, signs and spaces in one line`},
		{"long text", strings.Replace(example, `name = "my motocross fork"`, `name = "`+strings.Repeat("a", 201)+`"`, 1),
			`fork.mine.name: 201 characters; want 200 at most`},
	} {
		t.Run(tc.name, func(t *testing.T) {
			if tc.text == example {
				t.Fatal("nothing was changed")
			}
			_, err := data.DecodeFile("mine.toml", strings.NewReader(tc.text))
			if err == nil {
				t.Fatal("no error")
			}
			if !strings.HasPrefix(err.Error(), "mine.toml:") || !strings.Contains(err.Error(), tc.want) ||
				strings.Contains(err.Error(), "\n") {
				t.Errorf("got\n%v\nwant\n%s", err, tc.want)
			}
		})
	}
}

// TestSpecimenIsNoFork: evidence is not found as a fork.
func TestSpecimenIsNoFork(t *testing.T) {
	if _, err := data.Reference().Fork("bicycle-03"); err == nil {
		t.Error("a specimen passes as a fork")
	}
	if f, err := data.Reference().Specimen("bicycle-03"); err != nil || f.Chassis.Rake.Value.In(units.Degree) != 21 {
		t.Errorf("%v, %v", f.Chassis.Rake, err)
	}
}

// TestPrivateKeys: keys that begin with x- mean nothing, are found and are written again.
func TestPrivateKeys(t *testing.T) {
	text := "x-tool = { name = \"scales\", parts = [1, 2.5, true] }\n" +
		"[meta]\nschema = 2\nversion = \"7\"\nx-shop = \"mine\"\n" +
		strings.NewReplacer("[fork.mine]\n", "[fork.mine]\nx-serial = 17\n",
			"[fork.mine.left.air]\n", "[fork.mine.left.air]\nx-pump = \"the blue one\"\n").Replace(schemaExample(t))
	set, err := data.Decode(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	if got := set.Private("fork", "mine"); len(got) != 2 || got[0].Key != "x-serial" || got[0].Text != "17" ||
		got[1].Key != "left.air.x-pump" || got[1].Text != `"the blue one"` {
		t.Errorf("%+v", got)
	}
	again, err := data.Decode(strings.NewReader(encode(t, set)))
	if err != nil {
		t.Fatalf("%v\n%s", err, encode(t, set))
	}
	if encode(t, again) != encode(t, set) || again.Meta().Version != "7" {
		t.Errorf("written as\n%s", encode(t, again))
	}
	for _, want := range []string{`x-tool = { "name" = "scales", "parts" = [1, 2.5, true] }`, "x-serial = 17",
		`x-pump = "the blue one"`, `x-shop = "mine"`} {
		if !strings.Contains(encode(t, set), want) {
			t.Errorf("%s is lost", want)
		}
	}
}

// TestBasedOn: a study has the values of its base but those of its own, and derives anew
// what follows from them.
func TestBasedOn(t *testing.T) {
	set, err := data.Decode(strings.NewReader(`
[source.bench]
kind = "measured"
document = "mine"
[fork.mine]
name = "mine"
based-on = "M07"
source = "bench"
[fork.mine.chassis]
clamp-offset = "20 mm"
`))
	if err != nil {
		t.Fatal(err)
	}
	base, _ := data.Reference().Fork("M07")
	f, _ := set.Fork("mine")
	if f.Left != base.Left || f.Travel != base.Travel || f.BasedOn != "M07" {
		t.Error("lost what it is based on")
	}
	c := f.Chassis
	if c.ClampOffset.Source != "bench" || c.Offset.Value != 54*mm || !(c.Trail.Value > base.Chassis.Trail.Value) {
		t.Errorf("offset %v, trail %v", c.Offset, c.Trail)
	}
}

// TestOwnJudgment: a file may have judgments of its own, for its own forks.
func TestOwnJudgment(t *testing.T) {
	text := "[spread.travel]\nsource = \"bench\"\nsd = \"1 mm\"\n" + schemaExample(t)
	set, err := data.Decode(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	f, _ := set.Fork("mine")
	if got := f.Travel.Spread; got.SD != 1*mm || got.Source != "bench" {
		t.Errorf("travel %+v", got)
	}
	if got := f.Stanchion.Spread; got.SD != 0.1*mm || got.Source != "judgment" {
		t.Errorf("stanchion %+v", got)
	}
	if _, err := data.Decode(strings.NewReader("[spread.travel]\nsource = \"bench\"\nsd = \"1 kg\"\n" +
		schemaExample(t))); err == nil ||
		!strings.Contains(err.Error(), "spread.travel: ") {
		t.Errorf("a judgment in the wrong unit: %v", err)
	}
}

// TestTires: radii by hand from the rules of the designations.
func TestTires(t *testing.T) {
	for tire, want := range map[data.Tire]units.Length{
		"80/100-21": 346.5 * mm, "120/70 ZR 17": 300 * mm, "3.00-21": 342.7 * mm, "58-622": 369 * mm,
		"110/80 R19": 329.5 * mm,
	} {
		if got, err := tire.Radius(); err != nil || !in(got, want, want, 0.01*mm) {
			t.Errorf("%s: %v, %v, want %v", tire, got, err, want)
		}
	}
	for _, tire := range []data.Tire{"", "21", "80/100", "26x2.3", "80/100-21-3", "1e3-622"} {
		if _, err := tire.Radius(); err == nil {
			t.Errorf("%q is a tire", tire)
		}
	}
}

// TestCompound: a coil with a second spring or a table is the spring of package spring.
func TestCompound(t *testing.T) {
	coil := coilExample(t)
	for _, tc := range []struct {
		name, table string
		soft, hard  float64 // rates of the fork without gas, N/mm, at the start and near the end
	}{
		{"stack", "kind = \"stack\"\nrate = \"9.2 N/mm\"\nfree-length = \"200 mm\"\nsolid-length = \"100 mm\"\n",
			2 * 4.6 * 9.2 / 13.8, 0},
		{"nested", "kind = \"nested\"\nrate = \"2 N/mm\"\nfree-length = \"340 mm\"\nsolid-length = \"100 mm\"\n", 2 * 4.6,
			2 * 6.6},
		{"rate table",
			"kind = \"rate-table\"\n" +
				"table = \"4.6 N/mm from 0 mm, 4.6 N/mm from 200 mm, 6 N/mm from 210 mm, 6 N/mm from " +
				"320 mm\"\n", 2 * 4.6, 2 * 6},
		{"measured", "kind = \"measured\"\ntable = \"0 N at 0 mm, 460 N at 100 mm, 1840 N at 400 mm\"\n", 2 * 4.6, 2 * 4.6},
		{"progressive", "kind = \"progressive\"\ntable = \"12 of 8 mm, 12.6 of 20 mm\"\n", 2 * 4.6, 0},
	} {
		t.Run(tc.name, func(t *testing.T) {
			text := strings.Replace(coil, "[fork.mine.right]",
				"[fork.mine.left.compound]\nsource = \"bench\"\n"+tc.table+"\n[fork.mine.right]", 1)
			text = strings.Replace(text,
				"[fork.mine.gap]              # gas over the oil of each leg; none if air fills the legs\n"+
					"residual = \"300 mL\"          # left at full travel\n", "", 1)
			set, err := data.Decode(strings.NewReader(text))
			if err != nil {
				t.Fatal(err)
			}
			f, _ := set.Fork("mine")
			c := assemble(t, f).Curve(1)
			if got := c.Rate(1 * mm).In(units.NewtonPerMillimeter); !in(got, tc.soft, tc.soft, 0.02*tc.soft) {
				t.Errorf("%.2f N/mm at the start, want %.2f", got, tc.soft)
			}
			if got := c.Rate(f.Travel.Value - 1*mm).In(units.NewtonPerMillimeter); tc.hard > 0 && !in(got, tc.hard, tc.hard,
				0.02*tc.hard) {
				t.Errorf("%.2f N/mm at the end, want %.2f", got, tc.hard)
			}
			if again, err := data.Decode(strings.NewReader(encode(t, set))); err != nil {
				t.Error(err)
			} else if g, _ := again.Fork("mine"); g != f {
				t.Error("another fork when read again")
			}
		})
	}
	bad := strings.Replace(coil, "[fork.mine.right]",
		"[fork.mine.left.compound]\nsource = \"bench\"\nkind = \"rate-table\"\n"+
			"table = \"5 N/mm at 3 mm\"\n\n[fork.mine.right]", 1)
	if _, err := data.Decode(strings.NewReader(bad)); err == nil || !strings.Contains(err.Error(), "compound.table") {
		t.Errorf("a bad table: %v", err)
	}
	short := strings.Replace(bad, "5 N/mm at 3 mm", "5 N/mm from 0 mm, 5 N/mm from 200 mm", 1)
	if _, err := data.Decode(strings.NewReader(short)); err == nil || !strings.Contains(err.Error(), "ends at 194 mm") {
		t.Errorf("a table that ends early: %v", err)
	}
}

// TestCompoundForks: the springs of more than one rate that forks of the set have are of every
// kind but the measured one, and their coils work as their parts let them.
func TestCompoundForks(t *testing.T) {
	found := map[string]bool{}
	for f := range data.Reference().Forks() {
		l := f.Left
		if l.Compound.Kind == "" {
			continue
		}
		found[l.Compound.Kind] = true
		travel := f.Travel.Value
		start, err := l.Working(travel, 0)
		end, err2 := l.Working(travel, travel)
		if err != nil || err2 != nil {
			t.Fatal(f.ID, err, err2)
		}
		spec, err := l.Compound.Spec(l.Coil)
		if err != nil {
			t.Fatal(err)
		}
		curve, err := spec.Curve(travel)
		if err != nil {
			t.Fatal(err)
		}
		whole := curve.Force(travel)
		switch moved := end.Compression - start.Compression; l.Compound.Kind {
		case spring.KindStack:
			if !(moved < travel) || end.Force != whole || !(end.Force > start.Force) {
				t.Errorf("%s: %+v to %+v", f.ID, start, end)
			}
			other := travel - moved // of the second spring, which closes
			if solid := l.Compound.FreeLength.Value - l.Compound.SolidLength.Value; !(other < solid) {
				t.Errorf("%s: the second spring gives %v of its %v", f.ID, other, solid)
			}
		case spring.KindNested:
			if !(end.Force < whole) || moved != travel || end.Open != 1 {
				t.Errorf("%s: %+v to %+v", f.ID, start, end)
			}
		case spring.KindProgressive, spring.KindRateTable: // whose coils close one after another
			if end.Force != whole || moved != travel || !(end.Open < 1) || start.Open != 1 {
				t.Errorf("%s: %+v to %+v", f.ID, start, end)
			}
		}
	}
	for _, kind := range []string{spring.KindStack, spring.KindNested, spring.KindProgressive, spring.KindRateTable} {
		if !found[kind] {
			t.Errorf("no fork has a %s", kind)
		}
	}
}

// TestExports: table and JSON hold what the set holds, value by value.
func TestExports(t *testing.T) {
	set := data.Reference()
	var table, object bytes.Buffer
	if err := data.EncodeCSV(&table, set); err != nil {
		t.Fatal(err)
	}
	if err := data.EncodeJSON(&object, set); err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(&table).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var parsed struct {
		Meta    data.Meta
		Sources map[string]map[string]string
		Values  []data.Row
	}
	if err := json.Unmarshal(object.Bytes(), &parsed); err != nil {
		t.Fatal(err)
	}
	if len(parsed.Values) != len(lines)-1 || parsed.Meta != set.Meta() ||
		len(parsed.Sources) != len(collect(set.Sources())) {
		t.Errorf("%d values and %d lines", len(parsed.Values), len(lines)-1)
	}
	type key struct{ kind, id, field string }
	rows := make(map[key]data.Row)
	for i, r := range parsed.Values {
		k := key{r.Kind, r.ID, r.Field}
		if _, ok := rows[k]; ok {
			t.Errorf("%v twice", k)
		}
		rows[k] = r
		if got := lines[i+1]; got[0] != r.Kind || got[1] != r.ID || got[2] != r.Field || got[3] != r.Value ||
			got[4] != r.Unit {
			t.Errorf("line %d: %v", i+2, got)
		}
		if (r.Low != "") != (r.Means != "") || (r.Low != "") != (r.High != "") {
			t.Errorf("%v: low %q, high %q, means %q", k, r.Low, r.High, r.Means)
		}
		if r.Source != "" && r.Grade == "" || r.Source == "" && r.Unit != "" {
			t.Errorf("%v: source %q, grade %q, unit %q", k, r.Source, r.Grade, r.Unit)
		}
		if _, ok := parsed.Sources[r.Source]; r.Source != "" && !ok {
			t.Errorf("%v: no source %s", k, r.Source)
		}
	}
	for f := range set.Forks() {
		for _, e := range f.Values() {
			r, ok := rows[key{"fork", f.ID, e.Key}]
			list := strings.HasPrefix(e.Text, "[") && e.Source == ""
			if !ok && !list {
				t.Errorf("fork %s: no %s", f.ID, e.Key)
			}
			for _, text := range []string{e.SD, e.Low, e.High} {
				if _, unit, _ := strings.Cut(strings.Trim(text, `"`), " "); text != "" && unit != r.Unit {
					t.Errorf("fork %s: %s is in %s, its spread %s", f.ID, e.Key, r.Unit, text)
				}
			}
			if want := strings.Trim(e.Text, `"`); ok && !list && !strings.HasPrefix(e.Text, "[") &&
				strings.TrimSpace(r.Value+" "+r.Unit) != want {
				t.Errorf("fork %s: %s = %s %s, want %s", f.ID, e.Key, r.Value, r.Unit, want)
			}
		}
	}
}

// TestDescriptors: the data package names the columns of the table, and the JSON Schema
// every key of every record.
func TestDescriptors(t *testing.T) {
	var text, table, schema bytes.Buffer
	for _, err := range []error{
		data.EncodePackage(&text, data.Reference()), data.EncodeCSV(&table, data.Reference()), data.EncodeSchema(&schema),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	var p struct {
		Licenses  []struct{ Name string }
		Sources   []struct{ Title string }
		Resources []struct {
			Path   string
			Schema struct {
				Fields []struct{ Name, Description string }
			}
		}
	}
	if err := json.Unmarshal(text.Bytes(), &p); err != nil {
		t.Fatal(err)
	}
	header, _, _ := strings.Cut(table.String(), "\n")
	for i, name := range strings.Split(header, ",") {
		if f := p.Resources[0].Schema.Fields[i]; f.Name != name || f.Description == "" {
			t.Errorf("column %q is described as %+v", name, f)
		}
	}
	if len(p.Licenses) != 1 || p.Licenses[0].Name != data.Reference().Meta().License {
		t.Errorf("licenses %v", p.Licenses)
	}
	var root map[string]any
	if err := json.Unmarshal(schema.Bytes(), &root); err != nil {
		t.Fatal(err)
	}
	every(data.Reference(), func(record string, e data.Entry) {
		kind, _, _ := strings.Cut(record, ".")
		at, _ := root["properties"].(map[string]any)[kind].(map[string]any)["additionalProperties"].(map[string]any)
		for part := range strings.SplitSeq(e.Key, ".") {
			below, _ := at["properties"].(map[string]any)
			if at, _ = below[part].(map[string]any); at == nil {
				t.Fatalf("%s.%s is not in the JSON Schema", record, e.Key)
			}
		}
	})
}

// TestBlankRecord: the record to fill in, in README.md, has no key that is not one.
func TestBlankRecord(t *testing.T) {
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, blank, _ := strings.Cut(string(text), "```toml\n")
	blank, _, _ = strings.Cut(blank, "```")
	if _, err := data.Decode(strings.NewReader(blank)); err == nil || strings.Contains(err.Error(), "unknown key") {
		t.Errorf("the blank record: %v", err)
	}
	filled := strings.NewReplacer(`class = ""                   # or leave it out`+"\n", "",
		`document = "measured by … on …, with …"`, `document = "a test"`).Replace(blank)
	if _, err := data.Decode(strings.NewReader(filled)); strings.Contains(err.Error(), "document") ||
		strings.Contains(err.Error(), "class") {
		t.Errorf("%v", err)
	}
}
