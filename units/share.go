package units

// Share is a part of a whole, as sag of the travel: 0.27 for "27 %".
type Share float64

// Percent is the unit of share.
const Percent Share = 1e-2

var shareKind = kind{
	name: "Share", noun: "a share",
	units: []unit{{"%", float64(Percent), nil}},
}
