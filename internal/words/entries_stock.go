package words

// stock is what the picture of the worth of more shaft sets says.
var stock = []entry{
	{"Minutes saved a year by more shaft sets", "Ersparte Minuten im Jahr durch weitere Wellensätze", "Minutos ahorrados al año con más juegos de ejes", "Minutes gagnées par an avec plus de jeux d'arbres"},
	{"minutes saved a year", "ersparte Minuten im Jahr", "minutos ahorrados al año", "minutes gagnées par an"},
	{"shaft sets more than now", "Wellensätze mehr als jetzt", "juegos de ejes más que ahora", "jeux d'arbres de plus que maintenant"},
	{"sets: %d; more save little", "Sätze: %d; weitere sparen wenig", "juegos: %d; más ahorran poco", "jeux : %d ; davantage gagne peu"},
}
