package units

import "foldwright/internal/fault"

// The codes of what can be wrong with a quantity: one for each kind that is not understood, and one for all that are
// understood and out of reason.
const (
	CodeLength    fault.Code = "length"
	CodeThickness fault.Code = "thickness"
	CodeGrammage  fault.Code = "grammage"
	CodeClass     fault.Code = "basis-class"
	CodeSize      fault.Code = "size" // neither two lengths nor a known name
	CodeLeastMost fault.Code = "least-most"
	CodeSpeed     fault.Code = "speed"
	CodeMinutes   fault.Code = "minutes"
	CodeRange     fault.Code = "quantity-range"
)
