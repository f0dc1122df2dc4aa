package words

import "strconv"

// Spans writes ascending numbers with runs drawn together: 1–3, 5.
func Spans(numbers []int) string {
	text := ""
	for i := 0; i < len(numbers); {
		k := i
		for k+1 < len(numbers) && numbers[k+1] == numbers[k]+1 {
			k++
		}
		if text != "" {
			text += ", "
		}
		text += strconv.Itoa(numbers[i])
		if k > i {
			text += "–" + strconv.Itoa(numbers[k])
		}
		i = k + 1
	}
	return text
}
