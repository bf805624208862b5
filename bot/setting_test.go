package bot

import "testing"

func TestHourOf(t *testing.T) {
	for text, want := range map[string]string{"7": "07:00", "07:30": "07:30", "7.30am": "07:30", "12am": "00:00", "12pm": "12:00", "10pm": "22:00", "22": "22:00", "0": "00:00", " 8:05 ": "08:05",
		"08": "08:00", "08:30": "08:30", "09:09": "09:09", "9.30 pm": "21:30", "17:08": "17:08"} {
		if got, err := hourOf(text); err != nil || got.String() != want {
			t.Errorf("hourOf(%q) = %v, %v; want %s", text, got, err, want)
		}
	}
	for _, text := range []string{"", "25", "24:00", "13pm", "0am", "noon", "7:60", "-1", "7 8"} {
		if got, err := hourOf(text); err == nil {
			t.Errorf("hourOf(%q) = %v", text, got)
		}
	}
}
