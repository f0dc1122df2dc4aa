package machine

import "foldwright/internal/units"

// Rate is sheets an hour at a speed, rounded to the nearest whole sheet: every sheet takes its length along the travel
// and the gap to the next one. In other units it is 60 000 · v / (length + gap) with v in m/min and lengths in mm. Nothing
// passes when length and gap are nothing.
func Rate(v units.Speed, length, gap units.Length) int {
	pitch := int64(length + gap)
	if pitch <= 0 || v <= 0 {
		return 0
	}
	// In parts, because 60 · v alone could pass 64 bits for an absurd speed.
	whole, rest := int64(v)/pitch, int64(v)%pitch
	return int(60*whole + (60*rest+pitch/2)/pitch)
}
