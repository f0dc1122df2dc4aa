package settings

// BenchCautions are the lines for work on shafts at the bench, where nothing turns.
func BenchCautions() []string {
	return []string{
		"The machine maker's instructions for tools and shafts, your site's procedures and local rules come first; trained people only.",
		"Blades cut even when they stand still: gloves that resist cuts while you handle them, sheaths on, fingers off the rims.",
		"A shaft with its tools is heavy and rolls: lay it in its cradle, carry it by its body, take a second person or a lifting aid.",
		"Keep mates together and bores apart: a tool of another diameter never goes on this shaft.",
		"Tighten every screw evenly, turn each pair by hand one full turn, and see that no mates or hubs clash before the set goes to the folder.",
	}
}
