package settings

// Cautions are the lines that every set-up of a folder carries, on screen and on paper. They inform; the machine maker's
// instructions and the site's own rules decide.
func Cautions() []string {
	return []string{
		"These are positions, not permission: the machine maker's instructions, your site's procedures and local rules come first.",
		"Shafts and tools are changed only by people trained and authorised for it.",
		"Stop the folder, isolate and lock it out as your site requires, and prove that it cannot start, before a guard is opened.",
		"Blades cut even when they stand still: sheath them, carry a shaft by its body, lay it in its rack.",
		"A shaft with its tools is heavy: read the mass on its label and take a second person or a lifting aid.",
		"Tighten every screw, count keys and gauges back, turn one full turn by hand, then refit covers and close all guards.",
		"Rotating nips and shafts draw in fingers, sleeves and hair: run the first sheets slowly, hands clear, hearing protected where required.",
		"When anything differs from these settings, stop and ask.",
	}
}
