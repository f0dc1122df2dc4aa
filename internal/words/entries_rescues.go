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
	{"what would help", "was helfen würde", "qué ayudaría", "ce qui aiderait"},
}

// ahead is how likely a plan holds, and what of the near future it keeps.
var ahead = []entry{
	{"reserve", "Reserve", "reserva", "réserve"},
	{"enough in %d of 100 cases", "reicht in %d von 100 Fällen", "basta en %d de 100 casos", "suffit dans %d cas sur 100"},
	{
		"Planned with minutes that suffice in %d of 100 cases.", "Geplant mit Minuten, die in %d von 100 Fällen reichen.",
		"Planificado con minutos que bastan en %d de 100 casos.", "Planifié avec des minutes qui suffisent dans %d cas sur 100.",
	},
	{
		"Near until %s: %d in the order given; moved although near: %d, at %s each. A plan that keeps nothing costs %s.",
		"Nah bis %s: %d in der gegebenen Folge; trotz Nähe verschoben: %d, zu je %s. Ein Plan, der nichts bewahrt, kostet %s.",
		"Cerca hasta %s: %d en el orden dado; movidos aunque cerca: %d, a %s cada uno. Un plan que no conserva nada cuesta %s.",
		"Proche jusqu'à %s : %d dans l'ordre donné ; déplacés bien que proches : %d, à %s chacun. Un plan qui ne garde rien coûte %s.",
	},
	{"Moved although near: %s.", "Trotz Nähe verschoben: %s.", "Movidos aunque cerca: %s.", "Déplacés bien que proches : %s."},
	{"Chances", "Aussichten", "Probabilidades", "Chances"},
	{
		"%d days simulated: on average %s jobs late by %s in all; no job late on %s %% of the days.",
		"%d Tage durchgespielt: im Mittel %s Aufträge um zusammen %s zu spät; keiner zu spät an %s %% der Tage.",
		"%d días simulados: de media %s trabajos con %s de retraso en total; ninguno en el %s %% de los días.",
		"%d jours simulés : en moyenne %s travaux en retard de %s au total ; aucun sur %s %% des jours.",
	},
	{
		"Every job is on time on at least %s %% of the days.", "Jeder Auftrag ist an mindestens %s %% der Tage rechtzeitig.",
		"Cada trabajo llega a tiempo al menos el %s %% de los días.", "Chaque travail est à temps sur au moins %s %% des jours.",
	},
	{
		"ends by, on 10, 50, 90 days of 100", "Ende bis, an 10, 50, 90 von 100 Tagen",
		"acaba antes de, en 10, 50, 90 días de 100", "fini avant, sur 10, 50, 90 jours de 100",
	},
	{
		"beyond the hours of its folder", "nach den Stunden seiner Maschine", "más allá del horario de su plegadora", "au-delà des heures de sa plieuse",
	},
}
