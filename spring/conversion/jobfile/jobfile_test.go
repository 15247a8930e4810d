package jobfile_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/google/go-cmp/cmp"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// good is a job without a fault; the tests spoil it line by line. Line 1 is
// title.
const good = `title = "A job of a test"
[rider]
mass = "79 kg"
stance = "standing"
[fork]
id = "M07"
[air]
pressure = "9.0 bar"
temperature = "22 °C"
altitude = "240 m"
[workshop]
temperature = "20 °C"
altitude = "240 m"
[event]
name = "a round"
temperature = "4 °C"
altitude = "2500 m"
[plan]
criterion = "energy"
legs = "left"
[bench]
loose-reading = "12.4 mm"
[torque]
"top cap" = "33.2 lbf·ft"
[shelf.a]
rate = "8.4 N/mm"
wire = "6.2 mm"
outer-diameter = "42 mm"
active-coils = 38.1
free-length = "616 mm"
material = "sicrv"
`

func decode(text string) (*jobfile.File, error) {
	return jobfile.Decode("job.toml", strings.NewReader(text), data.Reference())
}

func TestDecode(t *testing.T) {
	f, err := decode(good)
	if err != nil {
		t.Fatal(err)
	}
	j := f.Job
	for _, c := range []struct {
		name      string
		got, want any
	}{
		{"title", f.Job.Heading.Title, "A job of a test"},
		{"stance", f.Job.Heading.Stance, "standing"},
		{"discipline from the record", f.Discipline.ID, "motocross"},
		{"rider", j.Rider, 79 * units.Kilogram},
		{"travel", j.Fork.Travel, 305 * units.Millimeter},
		{"gauge", f.Job.Present.Left.Air.Fill.Gauge, units.Gauge(9 * units.Bar)},
		{"fill temperature", f.Job.Present.Left.Air.Fill.Ambient.Temperature, units.Celsius(22)},
		{"event", f.Job.Heading.Event.Name, "a round"},
		{"criterion", j.Criterion, conversion.Energy},
		{"ride exponent", j.RideExponent, 1.3},
		{"legs", len(j.Legs), 1},
		{"side", j.Legs[0].Side, setup.Left},
		{"preload of the kit", j.Preload.Aim, 4 * units.Millimeter},
		{"coil", j.Shelf[0].Name, "a"},
		{"caliper", j.Caliper.Loose, units.Length(0.0124)},
		{"torque", f.Job.Torques[0].Name, "top cap"},
		{"event pressure below home's", j.Event.Pressure.In(units.Bar) < j.Workshop.Pressure.In(units.Bar), true},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
	// 33.2 lbf·ft are 45 N·m: common practice, no source; the factor is that of NIST
	// SP 811.
	if got := f.Job.Torques[0].Value.In(units.NewtonMeter); !(math.Abs(got-45) <= 0.05) {
		t.Errorf("33.2 lbf·ft read as %.2f N·m, want 45.0", got)
	}
	if _, err := conversion.Plan(j); err != nil {
		t.Errorf("no plan: %v", err)
	}
}

// A job in JSON of the same keys is the same job.
func TestDecodeJSON(t *testing.T) {
	var tree map[string]any
	if _, err := toml.Decode(good, &tree); err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(tree)
	if err != nil {
		t.Fatal(err)
	}
	got, err := decode(string(text))
	if err != nil {
		t.Fatal(err)
	}
	want, err := decode(good)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%+v\nwant\n%+v", got, want)
	}
}

func TestDecodeOptions(t *testing.T) {
	text := strings.Replace(good, `legs = "left"`, `ride-exponent = 1.25
target-sag = "70 mm"
preload = ["2 mm", "6 mm"]
preload-aim = "5 mm"
oil = ["510 mL", "550 mL"]
friction = "50 N"
fluid = "fork-10"`, 1)
	text = strings.Replace(text, `stance = "standing"`, "stance = \"seated\"\ndiscipline = \"enduro\"", 1)
	f, err := decode(text)
	if err != nil {
		t.Fatal(err)
	}
	j := f.Job
	if j.RideExponent != 1.25 || j.TargetSag != 70*units.Millimeter || j.ConvertedFriction != 50*units.Newton {
		t.Errorf("exponent %v, target %v, friction %v", j.RideExponent, j.TargetSag, j.ConvertedFriction)
	}
	if diff := cmp.Diff(conversion.Setting[units.Length]{Min: 2 * units.Millimeter, Aim: 5 * units.Millimeter,
		Max: 6 * units.Millimeter}, j.Preload); diff != "" {
		t.Errorf("preload (-want +got)\n%s", diff)
	}
	if !(math.Abs(j.OilVolume.Aim.In(units.Milliliter)-530) <= 1e-9) {
		t.Errorf("oil %+v", j.OilVolume)
	}
	if f.Discipline.ID != "enduro" || len(j.Legs) != 1 {
		t.Errorf("discipline %s, %d legs", f.Discipline.ID, len(j.Legs))
	}
}

func TestDecodeFaults(t *testing.T) {
	shelf := good[strings.Index(good, "[shelf.a]"):]
	for _, c := range []struct {
		name, from, to string // to replaces from
		want           string
	}{
		{"mass missing", "mass = \"79 kg\"\n", "", "job.toml:2: rider.mass: missing"},
		{"mass without a unit", `"79 kg"`, `"79"`, `job.toml:3: rider.mass = "79": unit missing; want kg`},
		{"mass with a decimal comma", `"79 kg"`, `"79,5 kg"`, `job.toml:3: rider.mass = "79,5 kg": `},
		{"mass as a bare number", `"79 kg"`, `79`, "job.toml:3: rider.mass = 79: "},
		{"mass zero", `"79 kg"`, `"0 kg"`, `job.toml:3: rider.mass = "0 kg": want 15 kg to 200 kg`},
		{"mass negative", `"79 kg"`, `"-79 kg"`, `job.toml:3: rider.mass = "-79 kg": want 15 kg to 200 kg`},
		{"mass absurd", `"79 kg"`, `"7900 kg"`, `job.toml:3: rider.mass = "7900 kg": want 15 kg to 200 kg`},
		{"mass NaN", `"79 kg"`, `"NaN kg"`, `job.toml:3: rider.mass = "NaN kg": `},
		{"mass infinite", `"79 kg"`, `"1e999 kg"`, `job.toml:3: rider.mass = "1e999 kg": `},
		{"mass a length", `"79 kg"`, `"79 mm"`, `job.toml:3: rider.mass = "79 mm": `},
		{"gauge given as absolute", `"9.0 bar"`, `"10 bara"`, `job.toml:8: air.pressure = "10 bara": `},
		{"gauge above the fork's limit", `"9.0 bar"`, `"14 bar"`,
			`job.toml:8: air.pressure = "14 bar": want 0 bar to 12 bar`},
		{"gauge below zero", `"9.0 bar"`, `"-1 bar"`, `job.toml:8: air.pressure = "-1 bar": want 0 bar to 12 bar`},
		{"temperature in kelvin without its unit", `"22 °C"`, `"295"`, `job.toml:9: air.temperature = "295": `},
		{"altitude of an airliner", `"2500 m"`, `"11000 m"`,
			`job.toml:17: event.altitude = "11000 m": want -500 m to 9000 m`},
		{"unknown fork", `id = "M07"`, `id = "M70"`, `job.toml:6: fork.id = "M70": no fork "M70"`},
		{"stance unknown", `"standing"`, `"lying"`, `job.toml:4: rider.stance = "lying": want standing or seated`},
		{"unknown key", `stance = "standing"`, "stance = \"standing\"\nweight = \"70 kg\"",
			"job.toml:5: rider.weight: unknown key"},
		{"misspelled key", `loose-reading`, `loose-readin`, "job.toml:22: bench.loose-readin: unknown key; did you " +
			"mean loose-reading?"},
		{"duplicate key", `id = "M07"`, "id = \"M07\"\nid = \"M08\"", "job.toml:7: "},
		{"criterion unknown", `"energy"`, `"feel"`,
			`job.toml:19: plan.criterion = "feel": want sag-force, energy or least-squares`},
		{"leg not in the kit", `legs = "left"`, `legs = "right"`, "job.toml:20: plan.legs"},
		{"two coils of one name", shelf, shelf + strings.Replace(shelf, "[shelf.a]", "[shelf.b]\nname = \"a\"", 1),
			`shelf.b.name = "a": "a" is the name of the coil in [shelf.a] too; want another`},
		{"material unknown", `"sicrv"`, `"sicrx"`, `job.toml:31: shelf.a.material = "sicrx": no material "sicrx"`},
		{"rate in the wrong kind", `"8.4 N/mm"`, `"8.4 N"`, `job.toml:26: shelf.a.rate = "8.4 N": `},
		{"rate of kgf/mm taken for N/mm is still plausible, a thousandfold slip is not", `"8.4 N/mm"`, `"8400 N/mm"`,
			`job.toml:26: shelf.a.rate = "8400 N/mm": want 0.5 N/mm to 100 N/mm`},
		{"coils as a text", `38.1`, `"38.1"`, "job.toml:29: shelf.a.active-coils"},
		{"spring shorter than its coils", `"616 mm"`, `"200 mm"`, "job.toml:30: shelf.a.free-length"},
		{"shelf empty", shelf, "", "job.toml:1: shelf: missing"},
		{"shelf without coils", shelf, "[shelf]\n", "job.toml:25: shelf: empty; want a table for each coil, as " +
			"[shelf.a]"},
		{"sag beyond the fork", `legs = "left"`, `target-sag = "190 mm"`,
			`job.toml:20: plan.target-sag = "190 mm": want 15.25 mm to 152.5 mm`},
		{"oil up to the brim", `legs = "left"`, `oil = ["870 mL", "870 mL"]`,
			`job.toml:20: plan.oil = ["870 mL", "870 mL"]: want an aim below 870 mL, what the leg holds at full travel`},
		{"oil aim up to the brim", `legs = "left"`, "oil = [\"500 mL\", \"870 mL\"]\noil-aim = \"870 mL\"",
			`job.toml:21: plan.oil-aim = "870 mL": want an aim below 870 mL`},
		{"torque in the wrong kind", `"33.2 lbf·ft"`, `"33.2 N"`, `job.toml:24: torque."top cap" = "33.2 N": `},
		{"preload aim outside its range", `legs = "left"`, `preload-aim = "9 mm"`,
			`job.toml:20: plan.preload-aim = "9 mm": want 3 mm to 5 mm`},
		{"oil above the leg", `legs = "left"`, `oil = ["700 mL", "1200 mL"]`,
			`job.toml:20: plan.oil = ["700 mL", "1200 mL"]: want 0 mL to 870 mL`},
		{"oil range upside down", `legs = "left"`, `oil = ["600 mL", "500 mL"]`, "job.toml:20: plan.oil"},
		{"not TOML", `[rider]`, `rider]`, "job.toml:2:6: "},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !strings.Contains(good, c.from) {
				t.Fatalf("the good job has no %q", c.from)
			}
			f, err := decode(strings.Replace(good, c.from, c.to, 1))
			if f != nil || err == nil || !strings.Contains(err.Error(), c.want) {
				t.Fatalf("error\n%v\nwant\n%s", err, c.want)
			}
			if n := strings.Count(err.Error(), "\n"); n > 1 {
				t.Errorf("%d faults for one slip:\n%v", n+1, err)
			}
			if !errors.As(err, new(*units.FileError)) {
				t.Errorf("%T holds no *units.FileError", err)
			}
		})
	}
}

// A leg with a damper beside one without is filled by what its own record says it holds with the
// damper in, or by what was measured; where nobody knows, it is refused by name.
func TestDamperLegHasItsOwnInside(t *testing.T) {
	var all bytes.Buffer
	if err := data.Encode(&all, data.Reference()); err != nil {
		t.Fatal(err)
	}
	table := regexp.MustCompile(`(?m)^\[fork\.[^.]+\.right\.damper\]\n([^\[\n].*\n|\n)*`)
	silent, err := data.DecodeFile("silent", strings.NewReader(table.ReplaceAllString(all.String(), "")))
	if err != nil {
		t.Fatal(err)
	}
	met := 0
	for fork := range data.Reference().Forks() {
		if fork.Left.Role.HasDamper() == fork.Right.Role.HasDamper() || !fork.Kit.Legs.Both {
			continue
		}
		met++
		text := strings.NewReplacer(`"M07"`, `"`+fork.ID+`"`, `legs = "left"`, `legs = "both"`).Replace(good)
		f, err := decode(text)
		if err != nil {
			t.Fatal(err)
		}
		in := fork.Right.Damper
		if got := f.Job.Legs[1]; got.Bath.Interior != in.Interior.Value || got.Bath.Spread != in.Interior.Spread.SD ||
			got.Room.Guide < in.Guide.Value || !(got.Bath.Column < f.Job.Fork.OilColumn()) {
			t.Errorf("%s: %+v of %+v", fork.ID, got, in)
		}
		want := `plan.legs = "both": the right leg of fork ` + fork.ID + ` holds a damper, and what that leg holds with ` +
			`the damper in is missing`
		if _, err := jobfile.Decode("job.toml", strings.NewReader(text), silent); err == nil ||
			!strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v, want %s", fork.ID, err, want)
		}
		measured := strings.Replace(text, "[bench]\n", "[bench]\ninside-right = \"655 mL\"\n", 1)
		f, err = jobfile.Decode("job.toml", strings.NewReader(measured), silent)
		if err != nil || f.Job.Legs[1].Bath.Interior != 655*units.Milliliter || f.Job.Legs[1].Bath.Spread != 0 {
			t.Errorf("%s, measured: %v", fork.ID, err)
		}
	}
	if met == 0 {
		t.Error("the dataset has no such fork")
	}
}

// sure is how sure the best coil of a plan is.
func sure(t *testing.T, j conversion.Job) setup.Uncertainty {
	t.Helper()
	r, err := conversion.Plan(j)
	if err != nil {
		t.Fatal(err)
	}
	return *r.Candidates[0].Behavior.Uncertainty
}

// A tolerance in the job is taken as bounds of 95 %, and reaches what is known of the plan.
func TestTolerances(t *testing.T) {
	with := strings.NewReplacer(`mass = "79 kg"`, `mass = "79 kg ± 3 kg"`, `"9.0 bar"`, `"9.0 bar ± 0.4 bar"`,
		"[bench]\n", "[bench]\ninside-left = \"880 mL ± 30 mL\"\n").Replace(good)
	f, err := decode(with)
	if err != nil {
		t.Fatal(err)
	}
	c := f.Job.Chassis
	rider := float64(c.RiddenLoad(80.5*units.Kilogram).Axial - c.RiddenLoad(79*units.Kilogram).Axial)
	k, bath := f.Job.Known, f.Job.Legs[0].Bath
	if math.Abs(float64(k.Rider)-rider) > 1e-9 || math.Abs(k.Gauge.In(units.Bar)-0.2) > 1e-12 ||
		math.Abs(bath.Spread.In(units.Milliliter)-15) > 1e-9 || math.Abs(bath.Interior.In(units.Milliliter)-880) > 1e-9 {
		t.Errorf("%+v, %+v", k, bath)
	}
	// Preload and friction, and the air there, which a larger tolerance of the event's change of sag tells of.
	with = strings.NewReplacer(`temperature = "4 °C"`, `temperature = "4 °C ± 10 K"`, "[plan]\n",
		"[plan]\npreload-aim = \"4 mm ± 1.5 mm\"\nfriction = \"63 N ± 24 N\"\n").Replace(good)
	loose, err := decode(with)
	if err != nil {
		t.Fatal(err)
	}
	k = loose.Job.Known
	if !(math.Abs(float64(k.Temperature)-5) <= 1e-12) || !(math.Abs(float64(k.Preload)-0.75e-3) <= 1e-12) ||
		!(math.Abs(float64(k.Friction)-12) <= 1e-12) || loose.Job.Preload.Aim != 4*units.Millimeter ||
		loose.Job.ConvertedFriction != 63 {
		t.Errorf("%+v", k)
	}
	f, err = decode(good)
	if err != nil {
		t.Fatal(err)
	}
	wide, narrow := sure(t, loose.Job), sure(t, f.Job)
	if !(wide.Drift > 1.2*narrow.Drift) || !(wide.Energy > narrow.Energy) {
		t.Errorf("known less: %+v; known better: %+v", wide, narrow)
	}
	for key, bad := range map[string]string{"event.temperature": `"4 °C ± 60 K"`, "air.pressure": `"9 bar ± 3 bar"`,
		"plan.oil-aim": `"540 mL ± 5 mL"`} {
		text := strings.Replace(good, `"4 °C"`, bad, 1)
		if key == "air.pressure" {
			text = strings.Replace(good, `"9.0 bar"`, bad, 1)
		}
		if key == "plan.oil-aim" {
			text = strings.Replace(good, "[plan]\n", "[plan]\noil-aim = "+bad+"\n", 1)
		}
		if _, err := decode(text); err == nil || !strings.Contains(err.Error(), key) {
			t.Errorf("%s = %s: %v", key, bad, err)
		}
	}
	for _, bad := range []string{`"79 kg ± -3 kg"`, `"79 kg ± 3 mm"`, `"79 kg ±"`, `"79 ± 3 kg"`, `"± 3 kg"`,
		`"79 kg ± 3 kg ± 1 kg"`,
		`"790 kg ± 3 kg"`, `"79 kg ± 900 kg"`} {
		_, err := decode(strings.Replace(good, `"79 kg"`, bad, 1))
		if err == nil || strings.Count(err.Error(), "\n") > 0 || !strings.Contains(err.Error(), "job.toml:3: rider.mass") {
			t.Errorf("%s: %v", bad, err)
		}
	}
}

// Every quantity of a job, spoiled in every usual way, is one fault in its line.
func TestEveryQuantity(t *testing.T) {
	quantity := regexp.MustCompile(`^("?[a-z -]+"?) = "([0-9.]+) ([^"]+)"$`)
	zeroIsFine := map[string]bool{"pressure": true, "temperature": true, "altitude": true, "loose-reading": true}
	lines := strings.Split(good, "\n")
	count := 0
	for i, line := range lines {
		m := quantity.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		count++
		key, unit := m[1], m[3]
		wrong := "kg"
		if unit == "kg" {
			wrong = "mm"
		}
		spoils := map[string]string{
			"no unit": `"` + m[2] + `"`, "NaN": `"NaN ` + unit + `"`, "Inf": `"Inf ` + unit + `"`,
			"overflow":   `"1e999 ` + unit + `"`,
			"wrong kind": `"5 ` + wrong + `"`, "decimal comma": `"5,5 ` + unit + `"`, "bare " +
				"number": "5.5", "empty": `""`, "table": "{}",
			"absurd": `"9e7 ` + unit + `"`, "absurdly negative": `"-9e7 ` + unit + `"`, "list": `["5 ` + unit + `"]`,
		}
		if !zeroIsFine[key] {
			spoils["zero"] = `"0 ` + unit + `"`
		}
		for name, value := range spoils {
			t.Run(key+" "+name, func(t *testing.T) {
				spoiled := slices.Clone(lines)
				spoiled[i] = key + " = " + value
				_, err := decode(strings.Join(spoiled, "\n"))
				where := fmt.Sprintf("job.toml:%d: ", i+1)
				if err == nil || strings.Count(err.Error(), "\n") > 0 || !strings.HasPrefix(err.Error(), where) {
					t.Errorf("%s: error %v, want one in %s", spoiled[i], err, where)
				}
			})
		}
		if strings.HasPrefix(key, `"`) || key == "loose-reading" {
			continue // may be left out
		}
		t.Run(key+" missing", func(t *testing.T) {
			_, err := decode(strings.Join(slices.Delete(slices.Clone(lines), i, i+1), "\n"))
			if err == nil || !strings.Contains(err.Error(), key+": missing") {
				t.Errorf("error %v", err)
			}
		})
	}
	if count < 10 {
		t.Errorf("%d quantities found in the good job", count)
	}
}

// An unknown fork is one fault: what depends on the fork is then read but not limited.
func TestUnknownForkOnce(t *testing.T) {
	const settings = `target-sag = "60 mm"
preload = ["2 mm", "6 mm"]
preload-aim = "4 mm"
oil = ["500 mL", "550 mL"]
oil-aim = "540 mL"`
	_, unknown := data.Reference().Fork("none")
	for _, c := range []struct{ name, settings, more string }{
		{"fork alone", settings, ""},
		{"and a unit", strings.Replace(settings, "4 mm", "4 kg", 1), `
job.toml:22: plan.preload-aim = "4 kg": kg is a mass; want mm`},
	} {
		_, err := decode(strings.NewReplacer(`"M07"`, `"none"`, `legs = "left"`, c.settings).Replace(good))
		want := `job.toml:6: fork.id = "none": ` + unknown.Error() + c.more
		if err == nil || !strings.HasPrefix(err.Error(), want) ||
			strings.Count(err.Error(), "\n") != strings.Count(want, "\n") {
			t.Errorf("%s: error\n%v\nwant\n%s", c.name, err, want)
		}
	}
}

// A discipline is the fork's own in upper case too, so that the sag window stays that of
// the record.
func TestDisciplineOfTheRecord(t *testing.T) {
	f, err := decode(strings.Replace(good, `stance = "standing"`, "stance = \"standing\"\ndiscipline = \"Motocross\"",
		1))
	if err != nil {
		t.Fatal(err)
	}
	if want := [2]units.Share{f.Fork.Sag.Rider.Lo, f.Fork.Sag.Rider.Hi}; f.Job.SagWindow != want {
		t.Errorf("sag window %v, want %v", f.Job.SagWindow, want)
	}
}

func TestDecodeReportsAllFaults(t *testing.T) {
	text := good
	for _, c := range [][2]string{{`"79 kg"`, `"79"`}, {`"9.0 bar"`, `"90 bar"`}, {`"sicrv"`, `"x"`},
		{`"energy"`, `"e"`}} {
		text = strings.Replace(text, c[0], c[1], 1)
	}
	_, err := decode(text)
	for _, line := range []string{"job.toml:3:", "job.toml:8:", "job.toml:19:", "job.toml:31:"} {
		if err == nil || !strings.Contains(err.Error(), line) {
			t.Errorf("no fault in %s\n%v", line, err)
		}
	}
}

// endless is a text that repeats a line with its number.
func endless(head, line string) string {
	var b strings.Builder
	b.WriteString(head)
	for i := range 30_000 {
		fmt.Fprintf(&b, line, i)
	}
	return b.String()
}

func TestDecodeBounds(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{strings.Replace(good, "[torque]", endless("[torque]", "\nt%d = \"5 N·m\""), 1),
			"job.toml:23: torque: 30001 entries; want 50 at most"},
		{endless(good, "[shelf.c%d]\n"), "job.toml:25: shelf: 30001 entries; want 200 at most"},
	} {
		if _, err := decode(c.text); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("error %.300v, want %s", err, c.want)
		}
	}
}

func TestDecodeRefusesFiles(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", "job.toml"},
		{"blank", "\n\n", "job.toml"},
		{"binary garbage", "\x00\xff\xfe\x01title", "job.toml"},
		{"10 MB", strings.Repeat("# a long comment\n", 600_000), "job.toml"},
		{"deep nesting", "title = " + strings.Repeat("[", 200_000), "job.toml"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := decode(c.text)
			if err == nil || !strings.HasPrefix(err.Error(), c.want) || len(err.Error()) > 4000 {
				t.Errorf("error %v", err)
			}
		})
	}
}

func TestCoilForkTakesNoAir(t *testing.T) {
	_, err := decode(strings.Replace(good, `"M07"`, `"M06"`, 1))
	if err == nil || !strings.Contains(err.Error(), "fork M06 has no air spring; leave this table out") {
		t.Errorf("error %v", err)
	}
	i, j := strings.Index(good, "[air]"), strings.Index(good, "[workshop]")
	f, err := decode(strings.Replace(strings.Replace(good[:i]+good[j:], `"M07"`, `"M06"`, 1), `legs = "left"`,
		`legs = "both"`, 1))
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Job.Present.Left.Springs) == 0 || len(f.Job.Legs) != 2 {
		t.Errorf("present %+v, %d legs", f.Job.Present.Left, len(f.Job.Legs))
	}
}

// Every fork of the dataset has a typical job with a plan, and its report is a
// number throughout.
func TestTypical(t *testing.T) {
	for fork := range data.Reference().Forks() {
		t.Run(fork.ID, func(t *testing.T) {
			f, err := jobfile.Typical(fork.ID, data.Reference())
			if err != nil {
				t.Fatal(err)
			}
			r, err := conversion.Plan(f.Job)
			if err != nil {
				t.Fatal(err)
			}
			// Opaque values have Equal, so that jobs and reports can be compared.
			again, err := jobfile.Typical(fork.ID, data.Reference())
			if err != nil {
				t.Fatal(err)
			}
			again.Job.Present.Left.Springs = append(again.Job.Present.Left.Springs, spring.Given{Of: spring.Parallel()})
			if same := cmp.Equal(f, again); same || !cmp.Equal(r, r) {
				t.Errorf("a job with one spring more is the same: %v, the report is its own equal: %v", same, !same)
			}
			c, ok := r.Chosen()
			if !ok {
				for _, c := range r.Candidates {
					for _, finding := range c.Findings {
						if finding.Severity == conversion.Stop {
							t.Logf("%s: %v %v: %s", c.Coil, finding.Value, finding.Code, finding.Reason)
						}
					}
				}
				t.Fatal("no safe plan")
			}
			if _, err := json.Marshal(r); err != nil { // NaN and the infinities have no JSON
				t.Error(err)
			}
			t.Logf("sag %.0f -> %.0f, rate %.2f, off %+.0f %%", r.Present.Sag.Middle, c.Behavior.Sag.Middle, c.Rate,
				100*c.RateDeviation)
		})
	}
	if _, err := jobfile.Typical("none", data.Reference()); !errors.As(err, new(*data.NotFoundError)) {
		t.Errorf("fork none: %v", err)
	}
}

// FuzzDecode: no panic; every fault names a line of the file; what decodes has a plan that
// is a number throughout, or an error.
func FuzzDecode(f *testing.F) {
	f.Add(good)
	f.Add(strings.Replace(good, "M07", "B04", 1))
	for _, table := range tables {
		f.Add(good + "[shelf.other]\n" + table + size + "[present.left]\npreload = \"2 mm\"\n" + table)
	}
	f.Add("title = \"x\"\n[shelf]\na = 1")
	f.Fuzz(func(t *testing.T, text string) {
		file, err := decode(text)
		if err != nil {
			for _, err := range check.Split(err) {
				var fault *units.FileError
				if !errors.As(err, &fault) || fault.Line < 1 || fault.Line > 1+strings.Count(text, "\n") {
					t.Errorf("%v names no line of the file", err)
				}
			}
			return
		}
		report, err := conversion.Plan(file.Job)
		if err != nil {
			return
		}
		if _, err := json.Marshal(report); err != nil {
			t.Error(err)
		}
	})
}

func ExampleDecode() {
	f, err := jobfile.Decode("job.toml", strings.NewReader(good), data.Reference())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f on fork %s at %.1f\n", f.Job.Rider, f.Fork.ID, f.Job.Present.Left.Air.Fill.Gauge)
	// Output: 79 kg on fork M07 at 9.0 bar
}

// Every fault of a file comes at once, with its line.
func ExampleDecode_faults() {
	text := strings.Replace(strings.Replace(good, `"79 kg"`, `"7.9 kg"`, 1), `"energy"`, `"feel"`, 1)
	_, err := jobfile.Decode("job.toml", strings.NewReader(text), data.Reference())
	fmt.Println(err)
	// Output:
	// job.toml:3: rider.mass = "7.9 kg": want 15 kg to 200 kg
	// job.toml:19: plan.criterion = "feel": want sag-force, energy or least-squares
}

// A program asks where a fault is and what was wanted.
func ExampleDecode_fileError() {
	text := strings.Replace(good, `"79 kg"`, `"7.9 kg"`, 1)
	_, err := jobfile.Decode("job.toml", strings.NewReader(text), data.Reference())
	var where *units.FileError
	var outside *units.RangeError
	if errors.As(err, &where) && errors.As(err, &outside) {
		fmt.Println(where.File, where.Line, where.Column, where.Key)
		fmt.Println(outside.Value, "against", outside.Want)
	}
	// Output:
	// job.toml 3 8 rider.mass
	// 7.9 kg against 15 kg to 200 kg
}

// What the fork of a record does at home and on a pass, without a plan.
func ExampleDecodeRide() {
	ride, err := jobfile.DecodeRide("ride", strings.NewReader(`
		fork = { id = "B06" }
		rider = { mass = "80 kg" }
		workshop = { temperature = "20 °C", altitude = "200 m" }
		event = { temperature = "5 °C", altitude = "2200 m" }`), data.Reference())
	if err != nil {
		fmt.Println(err)
		return
	}
	drift, err := ride.Setup.Drift(ride.Load, ride.There)
	fmt.Printf("%s under %.0f: sag %v, %v\n", ride.Fork.ID, ride.Load, drift.Here, err)
	_, err = jobfile.DecodeRide("ride",
		strings.NewReader(`{"fork": {"id": "B06"}, "rider": {"mass": "8 kg"}, "workshop": {}}`), data.Reference())
	for _, fault := range strings.Split(fmt.Sprint(err), "\n")[:2] {
		fmt.Println(fault)
	}
	// Output:
	// B06 under 301 N: sag 31 mm (28 mm to 34 mm), <nil>
	// ride:1: rider.mass = "8 kg": want 15 kg to 200 kg
	// ride:1: workshop.altitude: missing; want length with unit, as "12 mm"
}

// The rate of a coil is known by what is written beside it, else by its class, whose limits are those of 95 %, else
// as for any spring; what the record says of friction and of the gas over the oil is known no better.
func TestSpringClass(t *testing.T) {
	first := "[shelf." + strings.SplitN(strings.SplitN(good, "[shelf.", 2)[1], "]", 2)[0] + "]\n"
	for name, c := range map[string]struct {
		added string
		want  float64
	}{"none": {"", 0}, "grade 1": {"grade = 1\n", 0.02}, "grade 2": {"grade = 2\n", 0.04},
		"grade 3": {"grade = 3\n", 0.06}} {
		f, err := jobfile.Decode("job.toml", strings.NewReader(strings.Replace(good, first, first+c.added, 1)),
			data.Reference())
		if err != nil {
			t.Fatal(name, err)
		}
		if got := float64(f.Job.Shelf[0].Spread); !(math.Abs(got-c.want) <= 1e-12) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
		if k := f.Job.Known; k.Friction != f.Fork.Friction.Spread.SD || k.Residual != f.Fork.Gap.Residual.Spread.SD {
			t.Errorf("friction %v, gas over the oil %v", k.Friction, k.Residual)
		}
	}
	rate := regexp.MustCompile(`(?m)^rate = "([0-9.]+) N/mm"`).FindString(good)
	measured := strings.TrimSuffix(rate, `"`) + ` ± 0.1 N/mm"`
	f, err := jobfile.Decode("job.toml", strings.NewReader(strings.Replace(good, rate, measured, 1)), data.Reference())
	if err != nil {
		t.Fatal(err)
	}
	coil := f.Job.Shelf[0]
	if want := 0.05 / coil.Rate.In(units.NewtonPerMillimeter); !(math.Abs(float64(coil.Spread)-want) <= 1e-12) {
		t.Errorf("measured: %v, want %v", coil.Spread, want)
	}
}
