package words

// misses is why a folder cannot run a job.
var misses = []entry{
	{
		"the folder has no units", "die Falzmaschine hat keine Falzwerke",
		"la plegadora no tiene unidades", "la plieuse n'a pas de groupe",
	},
	{
		"the scheme has no folds, so there is nothing for a folder to do", "das Schema hat keinen Bruch, eine Falzmaschine hat also nichts zu tun",
		"el esquema no tiene pliegues: la plegadora no tiene nada que hacer", "le schéma n'a pas de pli : la plieuse n'a rien à faire",
	},
	{
		"fed with edge %s leading, %s: %s", "angelegt mit Kante %s voraus, %s: %s",
		"con el borde %s delante, %s: %s", "margé avec le bord %s en tête, %s : %s",
	},

	{
		"the feeder takes sheets up to %s along the travel, this one is %s", "der Anleger nimmt Bogen bis %s in Transportrichtung, dieser hat %s",
		"el alimentador admite pliegos de hasta %s en el sentido de marcha, este mide %s", "le margeur prend des feuilles jusqu'à %s dans le sens de marche, celle-ci mesure %s",
	},
	{
		"the feeder takes sheets from %s along the travel, this one is %s", "der Anleger nimmt Bogen ab %s in Transportrichtung, dieser hat %s",
		"el alimentador admite pliegos desde %s en el sentido de marcha, este mide %s", "le margeur prend des feuilles à partir de %s dans le sens de marche, celle-ci mesure %s",
	},
	{
		"the feeder takes sheets up to %s across the travel, this one is %s", "der Anleger nimmt Bogen bis %s quer zur Transportrichtung, dieser hat %s",
		"el alimentador admite pliegos de hasta %s a lo ancho, este mide %s", "le margeur prend des feuilles jusqu'à %s en travers du sens de marche, celle-ci mesure %s",
	},
	{
		"the feeder takes sheets from %s across the travel, this one is %s", "der Anleger nimmt Bogen ab %s quer zur Transportrichtung, dieser hat %s",
		"el alimentador admite pliegos desde %s a lo ancho, este mide %s", "le margeur prend des feuilles à partir de %s en travers du sens de marche, celle-ci mesure %s",
	},
	{
		"the feeder takes stock from %s, this is %s", "der Anleger nimmt Papier ab %s, dieses hat %s",
		"el alimentador admite papel desde %s, este es de %s", "le margeur prend du papier à partir de %s, celui-ci fait %s",
	},
	{
		"the feeder takes stock up to %s, this is %s", "der Anleger nimmt Papier bis %s, dieses hat %s",
		"el alimentador admite papel de hasta %s, este es de %s", "le margeur prend du papier jusqu'à %s, celui-ci fait %s",
	},

	{
		"unit %d takes a stack up to %s wide, this one is %s", "Falzwerk %d nimmt bis %s Breite, hier sind es %s",
		"la unidad %d admite hasta %s de ancho, aquí son %s", "le groupe %d prend jusqu'à %s de large, ici %s",
	},
	{
		"the nips of unit %d pass %s, %d layers are %s", "die Walzen von Falzwerk %d lassen %s durch, %d Lagen sind %s",
		"los rodillos de la unidad %d dejan pasar %s, %d capas son %s", "les rouleaux du groupe %d laissent passer %s, %d épaisseurs font %s",
	},
	{
		"plate %d of unit %d reaches %s, fold %d needs %s", "Tasche %d von Falzwerk %d reicht bis %s, Bruch %d braucht %s",
		"la bolsa %d de la unidad %d llega a %s, el pliegue %d necesita %s", "la poche %d du groupe %d va jusqu'à %s, le pli %d demande %s",
	},
	{
		"plate %d of unit %d stops no nearer than %s, fold %d needs %s", "Tasche %d von Falzwerk %d stoppt frühestens bei %s, Bruch %d braucht %s",
		"la bolsa %d de la unidad %d no se acerca a menos de %s, el pliegue %d necesita %s", "la poche %d du groupe %d ne descend pas sous %s, le pli %d demande %s",
	},
	{
		"unit %d has no plate for fold %d: it needs one above, to fold it up", "Falzwerk %d hat keine Tasche für Bruch %d: er braucht eine oben, um nach oben zu falzen",
		"la unidad %d no tiene bolsa para el pliegue %d: hace falta una superior, para plegar hacia arriba", "le groupe %d n'a pas de poche pour le pli %d : il en faut une supérieure, pour plier vers le haut",
	},
	{
		"unit %d has no plate for fold %d: it needs one below, to fold it down", "Falzwerk %d hat keine Tasche für Bruch %d: er braucht eine unten, um nach unten zu falzen",
		"la unidad %d no tiene bolsa para el pliegue %d: hace falta una inferior, para plegar hacia abajo", "le groupe %d n'a pas de poche pour le pli %d : il en faut une inférieure, pour plier vers le bas",
	},
	{
		"unit %d has no plate for fold %d: it needs one after plate %d above, to fold it up",
		"Falzwerk %d hat keine Tasche für Bruch %d: er braucht eine nach Tasche %d, oben, um nach oben zu falzen",
		"la unidad %d no tiene bolsa para el pliegue %d: hace falta una después de la bolsa %d, superior, para plegar hacia arriba",
		"le groupe %d n'a pas de poche pour le pli %d : il en faut une après la poche %d, supérieure, pour plier vers le haut",
	},
	{
		"unit %d has no plate for fold %d: it needs one after plate %d below, to fold it down",
		"Falzwerk %d hat keine Tasche für Bruch %d: er braucht eine nach Tasche %d, unten, um nach unten zu falzen",
		"la unidad %d no tiene bolsa para el pliegue %d: hace falta una después de la bolsa %d, inferior, para plegar hacia abajo",
		"le groupe %d n'a pas de poche pour le pli %d : il en faut une après la poche %d, inférieure, pour plier vers le bas",
	},
	{
		"the knife stop of unit %d reaches %s, fold %d needs %s", "der Schwertanschlag von Falzwerk %d reicht bis %s, Bruch %d braucht %s",
		"el tope de la cuchilla de la unidad %d llega a %s, el pliegue %d necesita %s", "la butée du couteau du groupe %d va jusqu'à %s, le pli %d demande %s",
	},
	{
		"the knife stop of unit %d stops no nearer than %s, fold %d needs %s", "der Schwertanschlag von Falzwerk %d stoppt frühestens bei %s, Bruch %d braucht %s",
		"el tope de la cuchilla de la unidad %d no se acerca a menos de %s, el pliegue %d necesita %s", "la butée du couteau du groupe %d ne descend pas sous %s, le pli %d demande %s",
	},
	{
		"unit %d is a knife and folds up only, fold %d goes down there", "Falzwerk %d hat ein Schwert und falzt nur nach oben, Bruch %d geht dort nach unten",
		"la unidad %d es de cuchilla y solo pliega hacia arriba, el pliegue %d va ahí hacia abajo", "le groupe %d est à couteau et ne plie que vers le haut, le pli %d y va vers le bas",
	},
	{
		"unit %d is a knife and makes one fold, fold %d would be its second", "Falzwerk %d hat ein Schwert und macht einen Bruch, Bruch %d wäre sein zweiter",
		"la unidad %d es de cuchilla y hace un solo pliegue, el pliegue %d sería el segundo", "le groupe %d est à couteau et fait un seul pli, le pli %d serait son deuxième",
	},
	{
		"the stack cannot pass unit %d without being folded there", "durch Falzwerk %d kommt der Bogen nicht ungefalzt",
		"el pliego no puede pasar por la unidad %d sin plegarse", "la feuille ne peut traverser le groupe %d sans y être pliée",
	},
	{
		"fold %d needs a turn into a unit after unit %d, and the folder has none", "Bruch %d braucht nach Falzwerk %d noch ein Falzwerk mit Umlenkung, und die Maschine hat keines",
		"el pliegue %d necesita un giro a otra unidad después de la %d, y la plegadora no la tiene", "le pli %d demande un renvoi vers un groupe après le groupe %d, et la plieuse n'en a pas",
	},

	{
		"%s: fold %d is made in unit %d and no station comes before it, so its line must be worked off the folder",
		"%s: Bruch %d entsteht in Falzwerk %d, und davor gibt es keine Station; die Linie muss außerhalb der Maschine gemacht werden",
		"%s: el pliegue %d se hace en la unidad %d y antes no hay estación; la línea hay que hacerla fuera de la plegadora",
		"%s : le pli %d se fait dans le groupe %d et aucun poste ne le précède ; cette ligne se fait hors de la plieuse",
	},
	{
		"%s: unit %d has no station for tools", "%s: Falzwerk %d hat keine Station für Werkzeuge",
		"%s: la unidad %d no tiene estación para herramientas", "%s : le groupe %d n'a pas de poste pour des outils",
	},
	{
		"%s: the folded piece has no pages to tell head from foot; give the cut as a line, such as \"%s\"",
		"%s: das gefalzte Stück hat keine Seiten, an denen Kopf und Fuß zu erkennen wären; den Schnitt als Linie angeben, etwa „%s“",
		"%s: la pieza plegada no tiene páginas que distingan cabeza y pie; indique el corte como línea, por ejemplo «%s»",
		"%s : la pièce pliée n'a pas de pages qui distinguent tête et pied ; donner la coupe comme une ligne, par exemple « %s »",
	},
	{
		"%s: its line runs across the travel behind unit %d", "%s: die Linie liegt hinter Falzwerk %d quer zur Transportrichtung",
		"%s: la línea queda de través a la marcha tras la unidad %d", "%s : la ligne est en travers de la marche après le groupe %d",
	},
	{"%d layer", "%d Lage", "%d capa", "%d épaisseur"},
	{"%d layers", "%d Lagen", "%d capas", "%d épaisseurs"},
	{
		"%s: behind unit %d its line lies %s from the left edge, and %s there would be hit too, which the line does not cross",
		"%s: hinter Falzwerk %d liegt die Linie %s von der linken Kante, und das Werkzeug träfe dort mehr, als die Linie kreuzt: %s",
		"%s: tras la unidad %d la línea queda a %s del borde izquierdo, y la herramienta alcanzaría ahí más de lo que cruza la línea: %s",
		"%s : après le groupe %d la ligne est à %s du bord gauche, et l'outil y toucherait plus que ce que la ligne traverse : %s",
	},
	{
		"%s: behind unit %d a cut of its strip would hit %s more", "%s: hinter Falzwerk %d träfe ein Schnitt des Streifens zusätzlich %s",
		"%s: tras la unidad %d un corte de la tira alcanzaría además %s", "%s : après le groupe %d une coupe de la bande toucherait en plus %s",
	},
	{
		"%s: behind unit %d its strip reaches over the edge of the stack", "%s: hinter Falzwerk %d reicht der Streifen über die Kante hinaus",
		"%s: tras la unidad %d la tira rebasa el borde", "%s : après le groupe %d la bande dépasse le bord",
	},

	{
		"station %s of unit %d: %s and %s are %s apart and need %s", "Station %s von Falzwerk %d: %s und %s liegen %s auseinander und brauchen %s",
		"estación %s de la unidad %d: %s y %s distan %s y necesitan %s", "poste %s du groupe %d : entre %s et %s il y a %s, il faut %s",
	},
	{
		"station %s of unit %d: %s would stand %s off the usable part of the shaft, %s to %s",
		"Station %s von Falzwerk %d: %s läge %s außerhalb des nutzbaren Teils der Welle, %s bis %s",
		"estación %s de la unidad %d: %s quedaría a %s de la parte útil del eje, %s a %s",
		"poste %s du groupe %d : %s serait à %s hors de la partie utile de l'arbre, %s à %s",
	},
	{
		"station %s of unit %d has no room for two drive rings at least %s apart, on the paper and off tools, cuts and fold lines: none",
		"Station %s von Falzwerk %d hat keinen Platz für zwei Transportringe mit mindestens %s Abstand, auf dem Papier und neben Werkzeugen, Schnitten und Brüchen: keinen",
		"la estación %s de la unidad %d no tiene sitio para dos anillos de arrastre a %s o más, sobre el papel y lejos de herramientas, cortes y pliegues: ninguno",
		"le poste %s du groupe %d n'a pas de place pour deux anneaux d'entraînement à %s ou plus, sur le papier et hors outils, coupes et plis : aucun",
	},
	{
		"station %s of unit %d has no room for two drive rings at least %s apart, on the paper and off tools, cuts and fold lines: only at %s",
		"Station %s von Falzwerk %d hat keinen Platz für zwei Transportringe mit mindestens %s Abstand, auf dem Papier und neben Werkzeugen, Schnitten und Brüchen: nur bei %s",
		"la estación %s de la unidad %d no tiene sitio para dos anillos de arrastre a %s o más, sobre el papel y lejos de herramientas, cortes y pliegues: solo en %s",
		"le poste %s du groupe %d n'a pas de place pour deux anneaux d'entraînement à %s ou plus, sur le papier et hors outils, coupes et plis : seulement à %s",
	},
}
