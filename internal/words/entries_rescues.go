package words

// rescues is what would bring a late job in on time.
var rescues = []entry{
	{"on %s, place %d: on time", "auf %s, Platz %d: rechtzeitig", "en %s, puesto %d: a tiempo", "sur %s, place %d : à temps"},
	{
		"%s of overtime on %s, %s to %s: on time", "%s Überstunden auf %s, %s bis %s: rechtzeitig",
		"%s de horas extra en %s, de %s a %s: a tiempo", "%s d'heures supplémentaires sur %s, de %s à %s : à temps",
	},
	{
		"%s of overtime on %s after each of %d shifts: on time", "je %s Überstunden auf %s nach %d Schichten: rechtzeitig",
		"%s de horas extra en %s tras cada uno de %d turnos: a tiempo", "%s d'heures supplémentaires sur %s après chacune de %d équipes : à temps",
	},
	{
		"released by %s instead of %s: on time", "freigegeben bis %s statt %s: rechtzeitig",
		"entregado al taller a las %s en vez de %s: a tiempo", "remis à l'atelier avant %s au lieu de %s : à temps",
	},
	{
		"set %s ready by %s instead of %s: on time", "Satz %s fertig bis %s statt %s: rechtzeitig",
		"juego %s listo a las %s en vez de %s: a tiempo", "jeu %s prêt avant %s au lieu de %s : à temps",
	},
	{
		"one more pair of hands at the bench: on time", "noch jemand an der Werkbank: rechtzeitig",
		"una persona más en el banco: a tiempo", "une personne de plus à l'établi : à temps",
	},
	{
		"nothing found; on %s, place %d, it is least late: %s", "nichts gefunden; auf %s, Platz %d, ist er am wenigsten zu spät: %s",
		"nada encontrado; en %s, puesto %d, es donde menos se retrasa: %s", "rien trouvé ; sur %s, place %d, il a le moins de retard : %s",
	},
	{
		"other jobs are %s later in all", "andere Aufträge sind zusammen %s später",
		"los demás trabajos se retrasan %s más en total", "les autres travaux ont %s de retard en plus au total",
	},
}
