// Package basis holds the design basis: the company's design factors, margins
// and assumptions. Limits are read by expressions as basis.NAME; assumptions
// go to the physics.
package basis

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"sort"
	"strings"

	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/finding"
)

// Format is the form of a basis document.
const Format = "spudgate-basis/1"

//go:embed default.json
var defaultJSON []byte

// Stricter is the direction in which a value is stricter.
type Stricter string

// The directions.
const (
	Higher Stricter = "higher"
	Lower  Stricter = "lower"
	Choice Stricter = "" // an assumption: no direction
)

// entry is one field of the default basis, which also defines the fields.
type entry struct {
	Name     string   `json:"name"`
	About    string   `json:"about"`
	Stricter Stricter `json:"stricter,omitempty"`
	Value    string   `json:"value"`            // with unit, true or false, or a word
	Metric   string   `json:"metric,omitempty"` // where common practice has a round value of its own
	Words    []string `json:"words,omitempty"`  // an assumption: one of these
	Design   string   `json:"design,omitempty"` // the plan's own figure that is held beside it
}

type document struct {
	Format string         `json:"format"`
	Name   string         `json:"name"`
	Fields []entry        `json:"fields,omitempty"` // the default basis only
	Values map[string]any `json:"values,omitempty"`
	For    []override     `json:"for,omitempty"`
}

// override sets values for the strings of one role.
type override struct {
	Role   string         `json:"role"`
	Values map[string]any `json:"values"`
}

// Basis is a design basis in force for one plan.
type Basis struct {
	Name   string
	fields []entry
	values map[string]setting            // by field
	byRole map[string]map[string]setting // by role, then field
}

type setting struct {
	value expr.Value
	from  string
}

// TypeOf gives the type of basis.NAME for compiling expressions.
func (b *Basis) TypeOf(name string) (expr.Type, bool) {
	s, ok := b.values[strings.TrimPrefix(name, "basis.")]
	if !ok || !strings.HasPrefix(name, "basis.") {
		return expr.Type{}, false
	}
	return expr.Type{Kind: s.value.Kind, Dim: s.value.Dim}, true
}

// Value gives basis.NAME for a string of the role; ok is false for a name that
// isn't of the basis.
func (b *Basis) Value(name, role string) (expr.Result, bool) {
	field, ok := strings.CutPrefix(name, "basis.")
	if !ok {
		return expr.Result{}, false
	}
	if s, ok := b.byRole[role][field]; ok {
		return expr.Known(s.value), true
	}
	s, ok := b.values[field]
	if !ok {
		return expr.Result{}, false
	}
	return expr.Known(s.value), true
}

// Parse reads a value as a field of the basis has it: a quantity with unit,
// true or false, or a word.
func Parse(text string) (expr.Value, error) {
	switch text {
	case "true", "yes":
		return expr.TruthOf(true), nil
	case "false", "no":
		return expr.TruthOf(false), nil
	}
	w, err := units.Parse(text)
	if err != nil {
		if strings.ContainsAny(text, "0123456789") {
			return expr.Value{}, err
		}
		return expr.TextOf(text), nil
	}
	one, _ := units.ByName("1")
	u := one
	if w.HasUnit {
		u = w.Unit
	}
	return expr.Number(w.SI(one), u.Dim), nil
}

// Default is the built-in basis for plans in the given unit system.
func Default(s units.System) (*Basis, error) {
	var d document
	if err := json.Unmarshal(defaultJSON, &d); err != nil {
		return nil, fmt.Errorf("default basis: %w", err)
	}
	b := &Basis{Name: d.Name, fields: d.Fields, values: map[string]setting{}, byRole: map[string]map[string]setting{}}
	for _, f := range d.Fields {
		text := f.Value
		if s == units.Metric && f.Metric != "" {
			text = f.Metric
		}
		v, err := f.parse(text)
		if err != nil {
			return nil, fmt.Errorf("default basis: %s: %w", f.Name, err)
		}
		b.values[f.Name] = setting{v, "default"}
	}
	return b, nil
}

// Layer puts a company's basis over b. Every wrong entry is an error that
// names it; nothing is taken over from a document with one.
func (b *Basis) Layer(file string, raw []byte) error {
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.DisallowUnknownFields()
	dec.UseNumber()
	var d document
	if err := dec.Decode(&d); err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	if d.Format != Format {
		return fmt.Errorf("%s: found format %q, expected %q", file, d.Format, Format)
	}
	if len(d.Fields) > 0 {
		return fmt.Errorf("%s: found \"fields\", expected \"values\": a basis sets values, only the default lists fields", file)
	}
	set, err := b.settings(file, d.Values)
	if err != nil {
		return err
	}
	roles := map[string]map[string]setting{}
	for _, o := range d.For {
		if roles[o.Role], err = b.settings(file, o.Values); err != nil {
			return err
		}
	}
	for k, v := range set {
		b.values[k] = v
	}
	for role, vs := range roles {
		b.byRole[role] = vs
	}
	b.Name = d.Name
	return nil
}

func (b *Basis) settings(file string, values map[string]any) (map[string]setting, error) {
	out := map[string]setting{}
	names := make([]string, 0, len(values))
	for n := range values {
		names = append(names, n)
	}
	sort.Strings(names)
	for _, n := range names {
		have, ok := b.values[n]
		if !ok {
			return nil, fmt.Errorf("%s: the basis has no field %q", file, n)
		}
		v, err := b.field(n).parse(fmt.Sprint(values[n]))
		if err != nil {
			return nil, fmt.Errorf("%s: %s: %w", file, n, err)
		}
		if _, joins := v.Dim.Join(have.value.Dim); v.Kind != have.value.Kind || !joins {
			return nil, fmt.Errorf("%s: %s: found %v, expected a value like %s", file, n, values[n], b.field(n).Value)
		}
		out[n] = setting{v, file}
	}
	return out, nil
}

// parse reads a value of this field.
func (f entry) parse(text string) (expr.Value, error) {
	if len(f.Words) == 0 {
		return Parse(text)
	}
	if !slices.Contains(f.Words, text) {
		return expr.Value{}, fmt.Errorf("found %q, expected one of %s", text, strings.Join(f.Words, ", "))
	}
	return expr.TextOf(text), nil
}

func (b *Basis) field(name string) entry {
	for _, f := range b.fields {
		if f.Name == name {
			return f
		}
	}
	return entry{}
}

// Hold puts the plan's own design factors beside the basis: where the plan's
// is stricter it governs.
func (b *Basis) Hold(p *plan.Plan) {
	own := map[string]struct {
		v     float64
		known bool
	}{
		"burst": {float64(p.Design.Burst.V), p.Design.Burst.Known()}, "collapse": {float64(p.Design.Collapse.V), p.Design.Collapse.Known()},
		"tension": {float64(p.Design.Tension.V), p.Design.Tension.Known()}, "triaxial": {float64(p.Design.Triaxial.V), p.Design.Triaxial.Known()},
		"kick_volume": {float64(p.Design.KickVolume.V), p.Design.KickVolume.Known()}, "kick_intensity": {float64(p.Design.KickIntensity.V), p.Design.KickIntensity.Known()},
	}
	for _, f := range b.fields {
		o, ok := own[f.Design]
		s := b.values[f.Name]
		if !ok || !o.known || f.Design == "" {
			continue
		}
		if (f.Stricter == Higher && o.v > s.value.SI) || (f.Stricter == Lower && o.v < s.value.SI) {
			s.value.SI, s.from = o.v, "the plan's own"
			b.values[f.Name] = s
		}
	}
}

// Record lists the basis for the reports.
func (b *Basis) Record() finding.Basis {
	out := finding.Basis{Name: b.Name}
	for _, f := range b.fields {
		s := b.values[f.Name]
		out.Values = append(out.Values, finding.BasisLine{Name: f.Name, About: f.About, Value: *finding.ValueOf(s.value, false), From: s.from})
		for _, role := range b.roles() {
			if s, ok := b.byRole[role][f.Name]; ok {
				out.Values = append(out.Values, finding.BasisLine{Name: f.Name, About: f.About, Value: *finding.ValueOf(s.value, false), From: s.from, For: role})
			}
		}
	}
	return out
}

func (b *Basis) roles() []string {
	var out []string
	for r := range b.byRole {
		out = append(out, r)
	}
	sort.Strings(out)
	return out
}

// Assumptions gives the physics what the basis assumes.
func (b *Basis) Assumptions() well.Assumptions {
	num := func(n string) float64 { return b.values[n].value.SI }
	text := func(n string) string { return b.values[n].value.Text }
	return well.Assumptions{
		CollapseEdition: text("collapse_edition"),
		BurstBackup:     text("burst_backup"),
		GasColumn:       text("gas_column"),
		GasGradient:     num("gas_gradient"),
		GasGravity:      num("gas_gravity"),
		FractureMargin:  units.KgPerM3(num("fracture_allowance")),
		SurfaceTemp:     units.Kelvins(num("surface_temperature")),
		TempGradient:    num("temperature_gradient"),
		LossGradient:    num("loss_gradient"),
		OverpullMost:    units.Newtons(num("overpull_most")),
		OverpullLeast:   units.Newtons(num("overpull_least")),
		ExtraCurvature:  units.RadPerM(num("extra_curvature")),
		DragDeviated:    units.Fraction(num("drag_deviated")),
		ExcessSurface:   units.Fraction(num("excess_surface")),
		ExcessMiddle:    units.Fraction(num("excess_intermediate")),
		ExcessDeep:      units.Fraction(num("excess_production")),
		KickIntensity:   units.KgPerM3(num("kick_intensity")),
		KickLarge:       units.CubicMeters(num("kick_volume_large")),
		KickSmall:       units.CubicMeters(num("kick_volume_small")),
		KickMargin:      units.KgPerM3(num("kick_margin")),
		TensionBasis:    text("tension_basis"),
	}
}

// Template writes a company's basis to start from: every field with its
// default, to be changed or struck out.
func Template(w io.Writer, s units.System) error {
	var d document
	if err := json.Unmarshal(defaultJSON, &d); err != nil {
		return err
	}
	var b strings.Builder
	fmt.Fprintf(&b, "{\n  \"format\": %q,\n  \"name\": \"company\",\n  \"values\": {", Format)
	for i, f := range d.Fields {
		text := f.Value
		if s == units.Metric && f.Metric != "" {
			text = f.Metric
		}
		if i > 0 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, "\n    %q: %q", f.Name, text)
	}
	b.WriteString("\n  },\n  \"for\": []\n}\n")
	_, err := io.WriteString(w, b.String())
	return err
}
