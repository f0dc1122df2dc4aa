package words

import (
	"testing"
	"time"
)

func TestClockIsSaidWithItsDay(t *testing.T) {
	monday := time.Date(2026, 3, 2, 22, 5, 0, 0, time.UTC)
	text := T("%s to %s", Clock(monday), Clock(monday.Add(3*time.Hour)))
	if got := text.String(); got != "Mon 22:05 to Tue 01:05" {
		t.Error(got)
	}
	if got := NewSpeaker(German, false).Clock(monday.AddDate(0, 0, 2)); got != "Mi 22:05" {
		t.Error(got)
	}
}
