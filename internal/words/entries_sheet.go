package words

// sheet is what drawings of flat sheets and of folding say.
var sheet = []entry{
	{"Flat sheet %s × %s, front and back", "Planobogen %s × %s, Vorder- und Rückseite", "Pliego abierto %s × %s, cara y dorso", "Feuille à plat %s × %s, recto et verso"},
	{"Front, as it looks up on the feed table", "Vorderseite, oben auf dem Anlegetisch", "Cara, tal como queda arriba en la mesa de alimentación", "Recto, face au-dessus sur la table de marge"},
	{"Back, turned over about the line of travel", "Rückseite, um die Transportrichtung gewendet", "Dorso, volteado sobre la línea de marcha", "Verso, retourné autour du sens de marche"},
	{"travel", "Transportrichtung", "sentido de marcha", "sens de marche"},
	{"edge of the sheet", "Bogenkante", "borde del pliego", "bord de la feuille"},
	{"valley fold, with its number", "Talfalz mit Nummer", "pliegue en valle, con su número", "pli vallée, avec son numéro"},
	{"mountain fold, with its number", "Bergfalz mit Nummer", "pliegue en monte, con su número", "pli montagne, avec son numéro"},
	{"Folding step by step, %d folds", "Falzfolge Schritt für Schritt, %d Brüche", "Plegado paso a paso, %d pliegues", "Pliage pas à pas, %d plis"},
	{"finished", "fertig", "terminado", "terminé"},
	{"%d: up at %s", "%d: nach oben bei %s", "%d: hacia arriba a %s", "%d : vers le haut à %s"},
	{"%d: down at %s", "%d: nach unten bei %s", "%d: hacia abajo a %s", "%d : vers le bas à %s"},
	{"%d: turn, left edge leads", "%d: drehen, linke Kante voraus", "%d: giro, borde izquierdo delante", "%d : tourner, bord gauche en tête"},
	{"%d: turn, right edge leads", "%d: drehen, rechte Kante voraus", "%d: giro, borde derecho delante", "%d : tourner, bord droit en tête"},
	{"%s × %s, layers: %d", "%s × %s, Lagen: %d", "%s × %s, capas: %d", "%s × %s, épaisseurs : %d"},
	{
		"%s from the side, in the order of travel, not to scale", "%s von der Seite, in Laufrichtung, nicht maßstäblich",
		"%s de lado, en el orden de marcha, sin escala", "%s vue de côté, dans l'ordre de marche, sans échelle",
	},
	{"datum", "Nullpunkt", "origen", "origine"},
	{"scale", "Maßstab", "escala", "échelle"},
}
