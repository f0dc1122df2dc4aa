package words

// moves is why a job stands elsewhere than in the order given.
var moves = []entry{
	{"tooling", "Werkzeuge", "herramientas", "outils"},
	{"saves %s of make-ready", "spart %s Rüsten", "ahorra %s de preparación", "économise %s de calage"},
	{
		"saves %s of make-ready, most of it %s", "spart %s Rüsten, das meiste davon %s",
		"ahorra %s de preparación, sobre todo %s", "économise %s de calage, surtout %s",
	},
	{"saves %s of tooling", "spart %s an Werkzeugen", "ahorra %s de herramientas", "économise %s d'outils"},
	{"saves %s of waiting", "spart %s Warten", "ahorra %s de espera", "économise %s d'attente"},
	{"saves %s of bench work", "spart %s an der Werkbank", "ahorra %s de trabajo en el banco", "économise %s à l'établi"},
	{"costs %s more make-ready", "kostet %s mehr Rüsten", "cuesta %s más de preparación", "coûte %s de calage en plus"},
	{"first on %s", "als erster auf %s", "primero en %s", "premier sur %s"},
	{"behind job %s", "hinter Auftrag %s", "detrás del trabajo %s", "derrière le travail %s"},
	{"in front of job %s", "vor Auftrag %s", "delante del trabajo %s", "devant le travail %s"},
	{"out of the way of job %s", "aus dem Weg von Auftrag %s", "deja paso al trabajo %s", "laisse la place au travail %s"},
	{
		"stays with set %s behind job %s", "bleibt bei Satz %s hinter Auftrag %s",
		"sigue con el juego %s detrás del trabajo %s", "reste avec le jeu %s derrière le travail %s",
	},
	{"on time instead of %s late", "rechtzeitig statt %s zu spät", "a tiempo en vez de %s de retraso", "à temps au lieu de %s de retard"},
	{"%s late instead of %s", "%s zu spät statt %s", "%s de retraso en vez de %s", "%s de retard au lieu de %s"},
	{
		"other jobs are %s less late in all", "andere Aufträge sind zusammen %s weniger zu spät",
		"los demás trabajos se retrasan %s menos en total", "les autres travaux ont %s de retard en moins au total",
	},
	{"pays only together with other moves", "lohnt nur zusammen mit anderen", "solo conviene junto con otros cambios", "ne vaut qu'avec d'autres déplacements"},
	{"by itself it hardly matters", "macht für sich kaum etwas aus", "por sí solo apenas importa", "ne change presque rien à lui seul"},
	{"pays", "lohnt", "ahorra", "rapporte"},
	{"elsewhere", "sonst", "aparte", "ailleurs"},
	{
		"Pays: what the plan would cost more with this job alone back in its place; nothing said = it cannot go back alone.",
		"Lohnt: was der Plan mehr kosten würde, stünde nur dieser Auftrag wieder an seinem Platz; nichts gesagt = allein kann er nicht zurück.",
		"Ahorra: lo que el plan costaría de más si solo este trabajo volviera a su puesto; sin indicación = no puede volver solo.",
		"Rapporte : ce que le plan coûterait de plus avec ce seul travail remis à sa place ; rien = il ne peut pas y revenir seul.",
	},
}
