package sheet

import (
	"encoding/json"
	"io"

	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// given is what the report rests on.
type given struct {
	Rider        units.Mass                     `json:"rider"`
	Stance       string                         `json:"stance"`
	Discipline   string                         `json:"discipline"`
	Fork         string                         `json:"fork"`
	Name         string                         `json:"name"`
	Fill         *gas.Fill                      `json:"fill,omitempty"` // of a fork on air
	Present      legs                           `json:"present"`
	Workshop     jobfile.Place                  `json:"workshop"`
	Event        jobfile.Place                  `json:"event"`
	RideExponent float64                        `json:"ride_exponent"`
	Preload      conversion.Range[units.Length] `json:"preload"`
	Oil          conversion.Range[units.Volume] `json:"oil"`
	Loose        *units.Length                  `json:"loose_reading,omitempty"` // of the caliper
	Torques      []jobfile.Torque               `json:"torques,omitempty"`
}

// legs are what the legs of the present fork hold.
type legs struct {
	Left  string `json:"left,omitempty"`
	Right string `json:"right,omitempty"`
}

// WriteJSON prints what the sheet says; quantities are texts with units.
func WriteJSON(out io.Writer, file *jobfile.File, report *conversion.Report) error {
	j := file.Job
	g := given{Rider: j.Rider, Stance: file.Stance, Discipline: file.Discipline.ID, Fork: file.Fork.ID, Name: file.Fork.Name,
		Present:  legs{springs(j.Present.Left), springs(j.Present.Right)},
		Workshop: file.Workshop, Event: file.Event, RideExponent: j.RideExponent, Preload: j.Preload, Oil: j.OilVolume, Torques: file.Torques}
	if file.Fill != (gas.Fill{}) {
		g.Fill = &file.Fill
	}
	if j.Caliper != nil {
		g.Loose = &j.Caliper.Loose
	}
	e := json.NewEncoder(out)
	e.SetIndent("", "  ")
	return e.Encode(struct {
		Title    string             `json:"title"`
		Given    given              `json:"given"`
		Report   *conversion.Report `json:"report"`
		Cautions []string           `json:"cautions"`
	}{file.Title, g, report, cautions(file)})
}
