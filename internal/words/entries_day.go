package words

// day is what the picture of a planned day says.
var day = []entry{
	{"Plan for %s", "Plan für %s", "Plan del %s", "Planning du %s"},
	{"bench: %s", "Werkbank: %s", "banco: %s", "établi : %s"},
	{"late %s", "%s zu spät", "retraso %s", "retard %s"},
	{"make-ready", "Rüsten", "preparación", "calage"},
	{"run or bench work", "Lauf oder Arbeit an der Werkbank", "tirada o trabajo en el banco", "roulage ou travail à l'établi"},
	{"nobody works", "niemand arbeitet", "nadie trabaja", "personne ne travaille"},
	{"due, on time", "Termin, rechtzeitig", "entrega, a tiempo", "échéance, à temps"},
	{"late, from when it was due", "zu spät, ab dem Termin", "con retraso, desde la hora de entrega", "en retard, depuis l'échéance"},
}
