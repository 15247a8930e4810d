//go:build !js

package main

import (
	"bytes"
	"encoding/csv"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/emulation"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"example.org/forkcurve/examples/page/explore"
)

// download clicks a button and returns the file that comes.
func (p *page) download(button, name string) []byte {
	p.Helper()
	folder := p.TempDir()
	order(p, cdpbrowser.SetDownloadBehavior, cdpbrowser.SetDownloadBehaviorParams{
		Behavior: cdpbrowser.SetDownloadBehaviorBehaviorAllow, DownloadPath: folder})
	p.run(chromedp.Click(chromedp.CSS("#" + button)))
	for range 200 {
		if content, err := os.ReadFile(filepath.Join(folder, name)); err == nil && len(content) > 0 {
			return content
		}
		time.Sleep(50 * time.Millisecond)
	}
	p.Fatalf("%s: no %s came", button, name)
	return nil
}

// The CSV has the library's curves, with their units in the heads.
func TestPageDownloadsCSV(t *testing.T) {
	p := open(t)
	for system, heads := range map[string][]string{
		"metric":   {"travel_mm", "force_rest_N", "rate_rest_N_per_mm", "energy_rest_J"},
		"imperial": {"travel_in", "force_rest_lbf", "rate_rest_lbf_per_in", "energy_rest_ft_lbf"},
	} {
		address := "fork=B04&second=M14&units=" + system
		p.visit(address)
		_, address, _ = strings.Cut(eval[string](p, `(async () => {`+drawn+` return location.href; })()`), "#")
		state, err := explore.Parse(address)
		if err != nil {
			t.Fatal(err)
		}
		view, err := state.View()
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(bytes.NewReader(p.download("csv", "fork-curves.csv"))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(rows[0][1:5], heads) {
			t.Errorf("%s: columns %v", system, rows[0])
		}
		rows = rows[1:]
		for _, f := range view.Forks {
			for i := range f.X {
				want := []float64{f.X[i], f.Rest.Force[i], f.Rest.Rate[i], f.Rest.Energy[i], f.Ridden.Force[i],
					f.Ridden.Rate[i], f.Ridden.Energy[i]}
				for k := range want {
					got, err := strconv.ParseFloat(rows[0][1+k], 64)
					if err != nil || !(math.Abs(got-want[k]) <= 1e-9*(1+math.Abs(want[k]))) || rows[0][0] != f.Name {
						t.Fatalf("%s: line %v, want %s %v", system, rows[0], f.Name, want)
					}
				}
				rows = rows[1:]
			}
		}
		if len(rows) != 0 {
			t.Errorf("%s: %d lines too many", system, len(rows))
		}
	}
}

// The SVG is a drawing by itself: well-formed, with all styles it needs, and nothing that it would have to ask for.
func TestPageDownloadsSVG(t *testing.T) {
	p := open(t)
	drawing := p.download("svg", "fork-force.svg")
	var root string
	style, paths, texts := "", 0, ""
	for d, name := xml.NewDecoder(bytes.NewReader(drawing)), ""; ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			if name = e.Name.Local; root == "" {
				root = e.Name.Space + " " + name
			}
			if name == "path" {
				paths++
			}
			for _, a := range e.Attr {
				if a.Name.Local == "href" {
					t.Errorf("refers to %s", a.Value)
				}
			}
		case xml.CharData:
			if name == "style" {
				style += string(e)
			} else {
				texts += string(e) + "\n"
			}
		}
	}
	if root != "http://www.w3.org/2000/svg svg" || paths < 10 || !strings.Contains(texts, "Force, N") {
		t.Errorf("root %s, %d paths, texts %q", root, paths, texts)
	}
	if strings.Contains(style, "var(") || strings.Contains(style, "url(") || !strings.Contains(style, "stroke-dasharray") {
		t.Errorf("styles that are not its own: %s", style)
	}
	// Opened alone, the lines look as they do on the page.
	want := eval[[]string](p, `["first", "second"].map((name) => {
		const style = getComputedStyle(document.querySelector("#force .line." + name + ":not(.rest)"));
		return style.stroke + " " + style.strokeWidth + " " + style.strokeDasharray + " " + style.fill; })`)
	got := eval[[]string](p, fmt.Sprintf(`(() => {
		const drawing = new DOMParser().parseFromString(%q, "image/svg+xml").documentElement;
		const shadow = document.body.appendChild(document.createElement("div")).attachShadow({ mode: "open" });
		const sheet = new CSSStyleSheet(); // which the policy lets a script have, an element not
		sheet.replaceSync(drawing.querySelector("style").textContent);
		drawing.querySelector("style").remove();
		shadow.adoptedStyleSheets = [sheet];
		shadow.append(drawing);
		return ["first", "second"].map((name) => {
			const style = getComputedStyle(shadow.querySelector(".line." + name + ":not(.rest)"));
			return style.stroke + " " + style.strokeWidth + " " + style.strokeDasharray + " " + style.fill; });
	})()`, drawing))
	p.forgive() // the parser meets the style element before it is taken out
	if !slices.Equal(got, want) {
		t.Errorf("lines of the file %q, of the page %q", got, want)
	}
}

// The button copies a link that brings the same state back, or says where the link is.
func TestPageCopiesLink(t *testing.T) {
	p := open(t)
	for _, name := range []string{"clipboard-write", "clipboard-read"} {
		order(p, cdpbrowser.SetPermission, cdpbrowser.SetPermissionParams{Origin: p.origin,
			Setting:    cdpbrowser.PermissionSettingGranted,
			Permission: &cdpbrowser.PermissionDescriptor{Name: name, AllowWithoutSanitization: true}})
	}
	p.visit("fork=B04&second=M14&rider=95kg&temperature=-5C")
	p.run(chromedp.Click(chromedp.CSS("#copy")))
	got := eval[[]string](p, `(async () => {`+drawn+`
		return [document.getElementById("copied").textContent, await navigator.clipboard.readText(), location.href,
			document.getElementById("readings").innerText]; })()`)
	if got[0] != "Copied." || got[1] != got[2] || !strings.Contains(got[1], "temperature=-5C") {
		t.Errorf("%q, copied %s at %s", got[0], got[1], got[2])
	}
	_, state, _ := strings.Cut(got[1], "#")
	p.visit("")
	p.visit(state)
	back := eval[string](p, `(async () => {`+drawn+` return document.getElementById("readings").innerText; })()`)
	if back != got[3] {
		t.Errorf("the link brings back\n%s\nnot\n%s", back, got[3])
	}
	eval[bool](p, `navigator.clipboard.writeText = () => Promise.reject(new Error("not allowed")), true`)
	p.run(chromedp.Click(chromedp.CSS("#copy")))
	said := eval[string](p, `(async () => {`+drawn+` return document.getElementById("copied").textContent; })()`)
	if !strings.Contains(said, "address bar") {
		t.Errorf("where no page may copy: %q", said)
	}
}

// emulate sets a medium and a scheme.
func (p *page) emulate(medium, scheme string) {
	order(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: medium,
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
}

// On paper stand settings, drawings, readings and cautions, dark on white; not what only a screen can do.
func TestPagePrint(t *testing.T) {
	p := open(t)
	p.visit("temperature=4C&altitude=2500m")
	p.run(chromedp.Evaluate[chromedp.Void](`document.getElementById("settings").open = false`)) // as on a phone
	pdf := order(p, cdppage.PrintToPDF, cdppage.PrintToPDFParams{PaperWidth: 8.27, PaperHeight: 11.69}).Data
	sheets := bytes.Count(pdf, []byte("/Type /Page\n"))
	t.Logf("%d sheets of A4, %d bytes", sheets, len(pdf))
	if !bytes.HasPrefix(pdf, []byte("%PDF")) || sheets < 1 || sheets > 8 {
		t.Errorf("%d sheets", sheets)
	}
	p.emulate("print", "dark")
	p.width(718) // A4 less margins, at 96 to the inch
	type seen struct {
		Shown, Hidden []string
		Paper, Ink    string
		Width         float64
		Open          bool
	}
	got := eval[seen](p, `(() => {
		dispatchEvent(new Event("beforeprint"));
		const visible = (e) => e.getClientRects().length > 0;
		const of = (list) => list.filter((s) => document.querySelector(s) && visible(document.querySelector(s)));
		const body = getComputedStyle(document.body);
		return { Shown: of(["h1", "header .caution", "#groups", "#set-pressure-text", "#force", "#readings", "#sagscale",
				"#section svg", "#pv", "#band", "#reckoning table", "#cautions li"]),
			Hidden: of(["nav", "#travelbar", "#lessons", "#ride", "#job", "#copy", "#csv", "#set-pressure", ".skip"]),
			Paper: body.backgroundColor, Ink: body.color, Width: document.documentElement.scrollWidth,
			Open: document.getElementById("settings").open };
	})()`)
	if len(got.Shown) != 12 || len(got.Hidden) != 0 {
		t.Errorf("on paper only %v, and %v that should not be", got.Shown, got.Hidden)
	}
	if got.Paper != "rgb(255, 255, 255)" || got.Ink != "rgb(0, 0, 0)" || got.Width > 718 {
		t.Errorf("ink %s on %s, %.0f wide", got.Ink, got.Paper, got.Width)
	}
	p.emulate("", "light")
	if open := eval[bool](p,
		`dispatchEvent(new Event("afterprint")), document.getElementById("settings").open`); open {
		t.Error("printing leaves the settings open")
	}
}

// Without color everything can be told apart: text and lines stand out by luminance as WCAG 2.2 asks (1.4.3: 4.5 to 1,
// 1.4.11: 3 to 1), and the two forks by dashes and marks, on screen, in the dark and on paper.
func TestPageGray(t *testing.T) {
	p := open(t)
	p.visit("temperature=4C&altitude=2500m")
	eval[bool](p, `(async () => { document.querySelector("#courses button").click(); `+drawn+` return true; })()`)
	for _, c := range [][2]string{{"", "light"}, {"", "dark"}, {"print", "light"}} {
		p.emulate(c[0], c[1])
		got := eval[map[string]float64](p, `(() => {
			// Relative luminance by WCAG 2.2.
			const channel = (v) => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
			const luminance = (color) => {
				const [r, g, b] = color.match(/[\d.]+/g).map(Number).map(channel);
				return 0.2126 * r + 0.7152 * g + 0.0722 * b;
			};
			const style = (s) => getComputedStyle(document.querySelector(s));
			const card = luminance(style("#curves").backgroundColor);
			const against = (a, b) => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
			const out = {};
			for (const s of ["h2", "#air", ".small", ".also", ".caution"]) {
				const back = s === ".caution" ? luminance(style(s).backgroundColor) : card;
				out["text " + s] = against(luminance(style(s).color), back);
			}
			for (const s of ["#force .quiet", "#force .bold", "#sagscale text.first", "#sagscale text.second"]) {
				out["text " + s] = against(luminance(style(s).fill), card);
			}
			for (const s of ["#force .line.first", "#force .line.second", "#force .axis", "#force .cursor", "#force .load",
				"#section .wall", "#section .coil", "#section .surface", "#sagscale .window", "#stage .ground",
				"#stage .wheel"]) {
				out["line " + s] = against(luminance(style(s).stroke), card);
			}
			return out;
		})()`)
		for name, contrast := range got {
			least := 3.0
			if strings.HasPrefix(name, "text") {
				least = 4.5
			}
			if !(contrast >= least) {
				t.Errorf("%v: %s: %.2f to 1", c, name, contrast)
			}
		}
		apart := eval[map[string][]string](p, `(() => {
			const style = (s) => getComputedStyle(document.querySelector(s));
			const pair = (of) => ["first", "second"].map(of);
			return {
				"lines": pair((n) => style("#force .line." + n).strokeDasharray),
				"thin lines": pair((n) => style("#force .line.rest." + n).strokeDasharray),
				"edges of bands": pair((n) => style("#band .line.rest." + n).strokeDasharray),
				"key": pair((n) => style(".sample." + n).borderTopStyle),
				"marks": pair((n) => document.querySelector("#force .dot." + n).tagName),
				"marks of sag": pair((n) => document.querySelector("#sagscale .dot." + n).tagName),
				"ride": pair((n) => style("#trace .line." + n).strokeDasharray),
				"ridden and at rest": [":not(.rest)", ".rest"].map((s) => style("#force .line.first" + s).strokeWidth),
			}; })()`)
		for what, two := range apart {
			if two[0] == two[1] {
				t.Errorf("%v: %s differ by color alone: %v", c, what, two)
			}
		}
		if len(got) < 19 || len(apart) < 8 {
			t.Errorf("%v: only %d contrasts, %d pairs", c, len(got), len(apart))
		}
	}
}

// At 320 px everything has room, in every state of the page, and what is touched is 24 px or more (WCAG 2.2, 2.5.8).
func TestPageSmallPhone(t *testing.T) {
	p := open(t)
	p.width(320)
	for _, address := range []string{"", "units=imperial&temperature=40F&altitude=9000ft",
		"fork=L02&second=none&travel=200mm", "fork=B04&second=M14&set=positive&leak=30%25&past=yes"} {
		p.visit(address)
		got := eval[map[string][]string](p, `(async () => {
			for (const d of document.querySelectorAll("details")) d.open = true;
			document.querySelector("#courses button").click();
			`+drawn+`
			const wide = [], small = [], tiny = [];
			const scrolls = (e) => e && (getComputedStyle(e).overflowX === "auto" || scrolls(e.parentElement));
			for (const e of document.querySelectorAll("body *")) {
				const box = e.getBoundingClientRect(), name = e.tagName + "#" + e.id + "." + (e.getAttribute("class") ?? "");
				if (box.width === 0 || e.closest(".hidden, .skip")) continue;
				if ((box.right > 321 || box.left < -1) && !scrolls(e)) wide.push(name + " to " + box.right);
				const touched = e.matches("button, select, input:not([type=radio]), nav a, summary");
				if (touched && box.height < 24) small.push(name + " " + box.height);
				const words = e.tagName === "text" && e.textContent;
				if (words && box.height < 11) tiny.push(name + " " + words + " " + box.height);
			}
			if (document.documentElement.scrollWidth > 320) wide.push("page " + document.documentElement.scrollWidth);
			return { wide, small, tiny };
		})()`)
		for what, list := range got {
			if len(list) > 0 {
				t.Errorf("%s: %s: %v", address, what, list[:min(5, len(list))])
			}
		}
	}
}

// What the records say is fetched once somebody opens it, and is what the dataset has.
func TestPageRecords(t *testing.T) {
	p := open(t)
	p.visit("fork=B04&second=M14")
	got := eval[[]string](p, `(async () => {
		document.getElementById("records").open = true;
		const tables = () => [...document.querySelectorAll("#entries table")];
		for (let i = 0; i < 200 && tables().length === 0; i++) await new Promise((done) => setTimeout(done, 20));
		return tables().map((t) => t.caption.textContent + " " + t.tBodies[0].rows.length
			+ " " + t.tBodies[0].rows[0].textContent); })()`)
	records := explore.Records()
	for i, id := range []string{"B04", "M14"} {
		e := records.Forks[id][0]
		want := fmt.Sprintf("%s %d %s%s%s%s", id, len(records.Forks[id]), e.Key, e.Text, e.Known, e.Source)
		if len(got) != 2 || !strings.HasPrefix(got[i], want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
