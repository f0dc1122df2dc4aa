package words

// label is what labels of shaft sets say.
var label = []entry{
	{"Labels of shaft sets", "Etiketten der Wellensätze", "Etiquetas de los juegos de ejes", "Étiquettes des jeux d'arbres"},
	{"%s · Ø %s · each shaft over %s kg", "%s · Ø %s · je Welle über %s kg", "%s · Ø %s · cada eje más de %s kg", "%s · Ø %s · plus de %s kg par arbre"},
	{"jobs: %s and %d more", "Aufträge: %s und %d weitere", "trabajos: %s y %d más", "travaux : %s et %d de plus"},
	{"jobs: %s", "Aufträge: %s", "trabajos: %s", "travaux : %s"},
	{"and %d more: scan the code", "und %d weitere: Code einlesen", "y %d más: escanee el código", "et %d de plus : scanner le code"},
}
