package words

// lines is what the lines of a make-ready say.
var lines = []entry{
	{"%s: %s", "%s: %s", "%s: %s", "%s : %s"},
	{"docket", "Auftrag", "orden", "dossier"},
	{"units", "Falzwerke", "unidades", "groupes"},
	{"plates", "Taschen", "bolsas", "poches"},
	{"gaps", "Walzenspalte", "luces", "écarts"},
	{"trial", "Probelauf", "prueba", "essai"},
	{"guides", "Anlagen", "guías", "guides"},
	{"tooling %s", "Werkzeuge %s", "herramientas %s", "outils %s"},

	{"docket change", "Auftragswechsel", "cambio de orden", "changement de dossier"},
	{
		"docket change; how the folder is set is not known, so all is set anew", "Auftragswechsel; wie die Maschine eingestellt ist, weiß niemand, also alles neu",
		"cambio de orden; no se sabe cómo está ajustada la plegadora, así que todo de nuevo", "changement de dossier ; on ignore les réglages de la plieuse, donc tout est à refaire",
	},
	{
		"docket change; nothing else differs", "Auftragswechsel; sonst bleibt alles",
		"cambio de orden; nada más cambia", "changement de dossier ; rien d'autre ne change",
	},
	{"%s before, %s now", "vorher %s, jetzt %s", "antes %s, ahora %s", "avant %s, maintenant %s"},
	{"%s thick", "%s dick", "%s de espesor", "%s d'épaisseur"},
	{"%s thick before, %s now", "vorher %s dick, jetzt %s", "antes %s de espesor, ahora %s", "avant %s d'épaisseur, maintenant %s"},

	{"unit %d coupled", "Falzwerk %d angekoppelt", "unidad %d acoplada", "groupe %d accouplé"},
	{"units %s coupled", "Falzwerke %s angekoppelt", "unidades %s acopladas", "groupes %s accouplés"},
	{"unit %d uncoupled", "Falzwerk %d abgekoppelt", "unidad %d desacoplada", "groupe %d désaccouplé"},
	{"units %s uncoupled", "Falzwerke %s abgekoppelt", "unidades %s desacopladas", "groupes %s désaccouplés"},
	{"unit %d entered another way", "anderer Einlauf in Falzwerk %d", "otra entrada en la unidad %d", "autre entrée dans le groupe %d"},
	{"units %s entered another way", "anderer Einlauf in Falzwerke %s", "otra entrada en las unidades %s", "autre entrée dans les groupes %s"},
	{"%d stop set", "%d Anschlag eingestellt", "%d tope ajustado", "%d butée réglée"},
	{"%d stops set", "%d Anschläge eingestellt", "%d topes ajustados", "%d butées réglées"},
	{"%d plate opened", "%d Tasche geöffnet", "%d bolsa abierta", "%d poche ouverte"},
	{"%d plates opened", "%d Taschen geöffnet", "%d bolsas abiertas", "%d poches ouvertes"},
	{"%d plate closed", "%d Tasche geschlossen", "%d bolsa cerrada", "%d poche fermée"},
	{"%d plates closed", "%d Taschen geschlossen", "%d bolsas cerradas", "%d poches fermées"},
	{"%d nip set", "%d Walzenpaar eingestellt", "%d par de rodillos ajustado", "%d paire de rouleaux réglée"},
	{"%d nips set", "%d Walzenpaare eingestellt", "%d pares de rodillos ajustados", "%d paires de rouleaux réglées"},
	{"trial sheets, %d fold to check", "Probebogen, %d Bruch prüfen", "pliegos de prueba, revisar %d pliegue", "feuilles d'essai, %d pli à contrôler"},
	{"trial sheets, %d folds to check", "Probebogen, %d Brüche prüfen", "pliegos de prueba, revisar %d pliegues", "feuilles d'essai, %d plis à contrôler"},

	{"side guide moved: unit %d", "Seitenanlage verstellt: Falzwerk %d", "guía lateral movida: unidad %d", "guide latéral déplacé : groupe %d"},
	{"side guides moved: units %s", "Seitenanlagen verstellt: Falzwerke %s", "guías laterales movidas: unidades %s", "guides latéraux déplacés : groupes %s"},
	{"set %s in: %s", "Satz %s einsetzen: %s", "poner el juego %s: %s", "mettre le jeu %s : %s"},
	{"2 shafts %s", "2 Wellen %s", "2 ejes %s", "2 arbres %s"},
	{"way to the shafts %s", "Zugang zu den Wellen %s", "acceso a los ejes %s", "accès aux arbres %s"},
	{"exit shaft out and in %s", "Auslaufwelle aus- und einbauen %s", "eje de salida fuera y dentro %s", "arbre de sortie dépose et repose %s"},
	{"all tools stay", "alle Werkzeuge bleiben", "todas las herramientas se quedan", "tous les outils restent"},
	{"tools at the machine: %s", "Werkzeuge an der Maschine: %s", "herramientas en la máquina: %s", "outils sur la machine : %s"},
	{"take off %d", "%d abnehmen", "quitar %d", "enlever %d"},
	{"fit %d", "%d aufsetzen", "montar %d", "monter %d"},
	{"slide %d", "%d verschieben", "deslizar %d", "glisser %d"},
	{"leave %d", "%d lassen", "dejar %d", "laisser %d"},
	{"no tools", "keine Werkzeuge", "sin herramientas", "pas d'outils"},
	{"built on the bench before", "vorher an der Werkbank gebaut", "montado antes en el banco", "monté avant à l'établi"},
	{"for the sake of later jobs", "späteren Aufträgen zuliebe", "en favor de trabajos posteriores", "au profit de travaux suivants"},
}

// places is why a job has no place in a plan.
var places = []entry{
	{"the job is pinned to %s", "der Auftrag ist auf %s festgelegt", "el trabajo está fijado en %s", "le travail est fixé sur %s"},
	{
		"it waits for %s, which no folder can run", "er wartet auf %s, den keine Maschine falzen kann",
		"espera a %s, que ninguna plegadora puede hacer", "il attend %s, qu'aucune plieuse ne peut faire",
	},
	{
		"station %s needs %d × %s, and the shop has %d for shafts of class %s, loose and on sets together",
		"Station %s braucht %d × %s, und der Betrieb hat %d für Wellen der Klasse %s, lose und in Sätzen zusammen",
		"la estación %s necesita %d × %s, y el taller tiene %d para ejes de la clase %s, sueltas y en juegos",
		"le poste %s demande %d × %s, et l'atelier en a %d pour les arbres de la classe %s, libres et en jeux",
	},
	{
		"there is %s: say so on the docket if it will do", "es gibt %s: auf der Auftragstasche angeben, wenn das genügt",
		"hay %s: indíquelo en la orden si sirve", "il y a %s : l'indiquer au dossier si cela convient",
	},
	{
		"at one station no set serves, and there are never tools enough to build or fit one; more loose tools or another set would help",
		"an einer Station passt kein Satz, und die Werkzeuge reichen nie, um einen zu bauen oder aufzusetzen; mehr lose Werkzeuge oder ein weiterer Satz würden helfen",
		"en una estación no sirve ningún juego y nunca hay herramientas suficientes para montar uno; ayudarían más herramientas sueltas u otro juego",
		"à un poste aucun jeu ne convient, et il n'y a jamais assez d'outils pour en monter un ; plus d'outils libres ou un autre jeu aideraient",
	},
	{
		"the working hours of its folder end before it does; the calendar has to go further",
		"die Arbeitszeit seiner Maschine endet vor ihm; der Kalender muss weiter reichen",
		"el horario de su plegadora acaba antes que él; el calendario debe llegar más lejos",
		"les heures de sa plieuse finissent avant lui ; le calendrier doit aller plus loin",
	},
	{
		"it waits for a job that its pin or its folder puts behind it; take the pin or the condition away",
		"er wartet auf einen Auftrag, den seine Festlegung oder seine Maschine hinter ihn stellt; Festlegung oder Bedingung aufheben",
		"espera a un trabajo que su fijación o su plegadora pone detrás; quite la fijación o la condición",
		"il attend un travail que sa place fixée ou sa plieuse met derrière lui ; lever la place ou la condition",
	},
	{
		"it waits for a job that found no place itself", "er wartet auf einen Auftrag, der selbst keinen Platz fand",
		"espera a un trabajo que tampoco encontró sitio", "il attend un travail qui n'a pas trouvé de place non plus",
	},
	{"not in the order", "nicht in der Reihenfolge", "no está en el orden", "pas dans l'ordre"},
	{
		"it waits for %s, which is not in the order", "er wartet auf %s, der nicht in der Reihenfolge steht",
		"espera a %s, que no está en el orden", "il attend %s, qui n'est pas dans l'ordre",
	},
}
