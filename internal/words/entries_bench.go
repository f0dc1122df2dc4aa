package words

// bench is what bench cards and full-scale strips say.
var bench = []entry{
	{"Bench card: set %s", "Werkbankkarte: Satz %s", "Ficha de banco: juego %s", "Fiche d'établi : jeu %s"},
	{"Bench cards: %s", "Werkbankkarten: %s", "Fichas de banco: %s", "Fiches d'établi : %s"},
	{"Now on the shafts", "Jetzt auf den Wellen", "Ahora en los ejes", "Actuellement sur les arbres"},
	{"To do, in this order", "Zu tun, in dieser Reihenfolge", "Por hacer, en este orden", "À faire, dans cet ordre"},
	{"Wanted on the shafts", "Gewünscht auf den Wellen", "Lo que debe quedar en los ejes", "Voulu sur les arbres"},
	{"now: %s", "jetzt: %s", "ahora: %s", "actuellement : %s"},
	{"last on %s", "zuletzt an %s", "la última vez en %s", "en dernier sur %s"},
	{"for job %s", "für Auftrag %s", "para el trabajo %s", "pour le travail %s"},
	{"goes to %s", "geht an %s", "va a %s", "va à %s"},
	{
		"only strip it: the job needs its tools", "nur abrüsten: der Auftrag braucht seine Werkzeuge",
		"solo desmontar: el trabajo necesita sus herramientas", "seulement démonter : le travail a besoin de ses outils",
	},
	{"bench work %s", "Werkbank %s", "banco %s", "établi %s"},
	{"ready by %s", "fertig bis %s", "listo para %s", "prêt pour %s"},
	{"no tools: plain shafts", "keine Werkzeuge: leere Wellen", "sin herramientas: ejes vacíos", "pas d'outils : arbres nus"},
	{"nothing: it stands as wanted", "nichts: es steht wie gewünscht", "nada: ya está como debe", "rien : tout est en place"},
	{"take off %s at %s", "%s bei %s abnehmen", "quitar %s en %s", "enlever %s à %s"},
	{"slide %s from %s to %s", "%s von %s nach %s schieben", "deslizar %s de %s a %s", "glisser %s de %s à %s"},
	{"fit %s at %s", "%s bei %s aufsetzen", "montar %s en %s", "monter %s à %s"},
	{"leave %s at %s", "%s bei %s lassen", "dejar %s en %s", "laisser %s à %s"},
	{"from the tool before", "vom vorigen Werkzeug", "desde la herramienta anterior", "depuis l'outil précédent"},
	{
		"Every spacing within %s; check with the full-scale strip.", "Jeder Abstand auf %s genau; mit dem Streifen in Originalgröße prüfen.",
		"Cada distancia con %s de tolerancia; compruébelo con la tira a tamaño real.", "Chaque écart à %s près ; vérifier avec la bande grandeur nature.",
	},

	{"Full-scale strip: %s, page %d", "Streifen in Originalgröße: %s, Seite %d", "Tira a tamaño real: %s, página %d", "Bande grandeur nature : %s, page %d"},
	{
		"%s to %s from the datum shoulder, full scale", "%s bis %s ab Wellenbund, Originalgröße",
		"%s a %s desde el collarín de origen, tamaño real", "%s à %s depuis l'épaulement d'origine, grandeur nature",
	},
	{"lies on the page before up to here", "liegt bis hier auf der vorigen Seite", "hasta aquí sobre la página anterior", "recouvre la page précédente jusqu'ici"},
	{"this must measure 100 mm", "das muss 100 mm messen", "esto debe medir 100 mm", "ceci doit mesurer 100 mm"},
	{
		"if it does not, print again at 100 %%, without fitting to the page", "sonst noch einmal mit 100 %% drucken, ohne Anpassen an die Seite",
		"si no, imprima otra vez al 100 %%, sin ajustar a la página", "sinon, réimprimer à 100 %%, sans ajuster à la page",
	},
}

// cautions stand on cards, labels and the floor page; every translation keeps the sense of the English one.
var cautions = []entry{
	{
		"These are positions, not permission: the machine maker's instructions, your site's procedures and local rules come first.",
		"Das sind Maße, keine Erlaubnis: Vorrang haben die Anleitung des Herstellers, die Regeln des Betriebs und die örtlichen Vorschriften.",
		"Son posiciones, no un permiso: primero van las instrucciones del fabricante, los procedimientos de la planta y las normas locales.",
		"Ce sont des cotes, pas une permission : la notice du constructeur, les consignes du site et les règles locales passent d'abord.",
	},
	{
		"Shafts and tools are changed only by people trained and authorised for it.",
		"Wellen und Werkzeuge wechselt nur, wer dafür ausgebildet und beauftragt ist.",
		"Los ejes y las herramientas los cambia solo personal formado y autorizado.",
		"Seules des personnes formées et habilitées changent arbres et outils.",
	},
	{
		"Stop the folder, isolate and lock it out as your site requires, and prove that it cannot start, before a guard is opened.",
		"Maschine anhalten, nach Betriebsregel freischalten und sichern und prüfen, dass sie nicht anläuft, bevor eine Schutzhaube geöffnet wird.",
		"Pare la plegadora, aíslela y bloquéela según la planta y compruebe que no puede arrancar antes de abrir un resguardo.",
		"Arrêter la plieuse, la consigner selon le site et vérifier qu'elle ne peut démarrer avant d'ouvrir un protecteur.",
	},
	{
		"Blades cut even when they stand still: sheath them, carry a shaft by its body, lay it in its rack.",
		"Messer schneiden auch im Stillstand: Schutz aufsetzen, die Welle am Körper tragen, ins Gestell legen.",
		"Las cuchillas cortan aunque estén quietas: protéjalas, lleve el eje por el cuerpo y déjelo en su soporte.",
		"Les lames coupent même à l'arrêt : les protéger, porter l'arbre par son corps, le poser dans son support.",
	},
	{
		"A shaft with its tools is heavy: read the mass on its label and take a second person or a lifting aid.",
		"Eine bestückte Welle ist schwer: Masse auf dem Etikett lesen, zu zweit oder mit Hebehilfe tragen.",
		"Un eje con sus herramientas pesa: lea la masa en la etiqueta y levántelo entre dos o con ayuda.",
		"Un arbre équipé est lourd : lire la masse sur l'étiquette, s'y mettre à deux ou prendre une aide au levage.",
	},
	{
		"Tighten every screw, count keys and gauges back, turn one full turn by hand, then refit covers and close all guards.",
		"Alle Schrauben festziehen, Schlüssel und Lehren nachzählen, von Hand eine volle Umdrehung drehen, dann Hauben aufsetzen und schließen.",
		"Apriete todos los tornillos, cuente llaves y galgas, gire a mano una vuelta entera, luego ponga tapas y cierre los resguardos.",
		"Serrer chaque vis, recompter clés et calibres, faire un tour complet à la main, puis remettre capots et fermer les protecteurs.",
	},
	{
		"Rotating nips and shafts draw in fingers, sleeves and hair: run the first sheets slowly, hands clear, hearing protected where required.",
		"Laufende Walzen und Wellen ziehen Finger, Ärmel und Haare ein: erste Bogen langsam, Hände weg, Gehörschutz wo vorgeschrieben.",
		"Los rodillos y ejes en marcha atrapan dedos, mangas y pelo: primeros pliegos despacio, manos fuera, oídos protegidos donde se exija.",
		"Rouleaux et arbres en marche happent doigts, manches et cheveux : premières feuilles lentement, mains à l'écart, protection auditive si exigée.",
	},
	{
		"When anything differs from these settings, stop and ask.",
		"Weicht etwas von dieser Karte ab: anhalten und fragen.",
		"Si algo difiere de estos ajustes, pare y pregunte.",
		"Si quelque chose diffère de ces réglages, arrêter et demander.",
	},
	{
		"The machine maker's instructions for tools and shafts, your site's procedures and local rules come first; trained people only.",
		"Vorrang haben die Anleitung des Herstellers für Werkzeuge und Wellen, die Regeln des Betriebs und die örtlichen Vorschriften; nur Ausgebildete.",
		"Primero van las instrucciones del fabricante para herramientas y ejes, los procedimientos de la planta y las normas locales; solo personal formado.",
		"La notice du constructeur pour outils et arbres, les consignes du site et les règles locales passent d'abord ; personnes formées seulement.",
	},
	{
		"Blades cut even when they stand still: gloves that resist cuts while you handle them, sheaths on, fingers off the rims.",
		"Messer schneiden auch im Stillstand: beim Anfassen schnittfeste Handschuhe, Schutz aufgesetzt, Finger weg vom Rand.",
		"Las cuchillas cortan aunque estén quietas: guantes anticorte al manejarlas, fundas puestas, dedos fuera del filo.",
		"Les lames coupent même à l'arrêt : gants anti-coupure pour les manier, protections en place, doigts loin du tranchant.",
	},
	{
		"A shaft with its tools is heavy and rolls: lay it in its cradle, carry it by its body, take a second person or a lifting aid.",
		"Eine bestückte Welle ist schwer und rollt: in die Auflage legen, am Körper tragen, zu zweit oder mit Hebehilfe.",
		"Un eje con herramientas pesa y rueda: déjelo en su cuna, llévelo por el cuerpo, entre dos o con ayuda.",
		"Un arbre équipé est lourd et roule : le poser sur son berceau, le porter par son corps, à deux ou avec une aide au levage.",
	},
	{
		"Keep mates together and bores apart: a tool of another diameter never goes on this shaft.",
		"Paare zusammenlassen, Bohrungen nicht mischen: Werkzeug mit anderem Durchmesser gehört nie auf diese Welle.",
		"Mantenga juntas las parejas y no mezcle diámetros: en este eje nunca va una herramienta de otro diámetro.",
		"Garder les paires ensemble, ne pas mélanger les alésages : jamais un outil d'un autre diamètre sur cet arbre.",
	},
	{
		"Tighten every screw evenly, turn each pair by hand one full turn, and see that no mates or hubs clash before the set goes to the folder.",
		"Jede Schraube gleichmäßig anziehen, jedes Paar von Hand eine volle Umdrehung drehen und prüfen, dass nichts anstößt, bevor der Satz zur Maschine geht.",
		"Apriete por igual cada tornillo, gire a mano cada par una vuelta entera y vea que nada choque antes de llevar el juego a la plegadora.",
		"Serrer chaque vis également, tourner chaque paire d'un tour complet à la main et vérifier que rien ne se heurte avant que le jeu aille à la plieuse.",
	},
}
