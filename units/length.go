package units

// Length is a distance in meters.
type Length float64

// Area is a surface in square meters.
type Area float64

// Volume is a volume in cubic meters.
type Volume float64

const inch = 0.0254 // m, international inch of 1959

// Units of length.
const (
	Kilometer  Length = 1e3
	Meter      Length = 1
	Centimeter Length = 1e-2
	Millimeter Length = 1e-3
	Micrometer Length = 1e-6
	Inch       Length = inch
	Foot       Length = 12 * inch
)

// Units of area.
const (
	SquareMeter      Area = 1
	SquareCentimeter Area = 1e-4
	SquareMillimeter Area = 1e-6
	SquareInch       Area = inch * inch
)

// Units of volume. The imperial fluid ounce is 4 % smaller than the US one, the
// imperial gallon 20 % larger than the US one.
const (
	CubicMeter         Volume = 1
	Liter              Volume = 1e-3
	Milliliter         Volume = 1e-6
	CubicCentimeter    Volume = 1e-6
	CubicMillimeter    Volume = 1e-9
	CubicInch          Volume = inch * inch * inch
	USGallon           Volume = 231 * inch * inch * inch
	USFluidOunce       Volume = 231 * inch * inch * inch / 128
	ImperialGallon     Volume = 4.54609e-3
	ImperialFluidOunce Volume = 4.54609e-3 / 160
)

var lengthKind = kind{
	name: "Length", noun: "a length",
	units: []unit{
		{"mm", float64(Millimeter), nil},
		{"cm", float64(Centimeter), nil},
		{"m", float64(Meter), nil},
		{"km", float64(Kilometer), nil},
		{"µm", float64(Micrometer), nil},
		{"in", float64(Inch), nil},
		{"ft", float64(Foot), nil},
	},
	large: unit{"m", float64(Meter), nil}, largeFrom: 10,
}

var areaKind = kind{
	name: "Area", noun: "an area",
	units: []unit{
		{"cm²", float64(SquareCentimeter), nil},
		{"mm²", float64(SquareMillimeter), nil},
		{"m²", float64(SquareMeter), nil},
		{"in²", float64(SquareInch), nil},
	},
}

var volumeKind = kind{
	name: "Volume", noun: "a volume",
	units: []unit{
		{"mL", float64(Milliliter), also{"ml"}},
		{"L", float64(Liter), also{"l"}},
		{"cm³", float64(CubicCentimeter), also{"cc"}},
		{"mm³", float64(CubicMillimeter), nil},
		{"m³", float64(CubicMeter), nil},
		{"in³", float64(CubicInch), nil},
		{"US fl oz", float64(USFluidOunce), nil},
		{"imp fl oz", float64(ImperialFluidOunce), nil},
		{"US gal", float64(USGallon), nil},
		{"imp gal", float64(ImperialGallon), nil},
	},
	large: unit{"L", float64(Liter), nil}, largeFrom: 10 * float64(Liter),
	refused: []refusal{
		{"fl oz", `say which fluid ounce: "US fl oz" (29.57 mL) or "imp fl oz" (28.41 mL)`},
		{"oz", `say which fluid ounce: "US fl oz" (29.57 mL) or "imp fl oz" (28.41 mL)`},
		{"gal", `say which gallon: "US gal" (3.785 L) or "imp gal" (4.546 L)`},
	},
}
