package since_test

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"encoding/json"
	"io"
	"testing"
)

// ofOtherLaw is the JSON of an answer as a program with another reference price of corn
// would have written it: the row of the law, and corn's averages under PLC.
func ofOtherLaw(t *testing.T, text []byte) []byte {
	t.Helper()
	var all map[string]any
	if err := json.Unmarshal(text, &all); err != nil {
		t.Fatal(err)
	}
	inputs := all["inputs"].(map[string]any)
	figures := unpack(t, inputs["figures"].(string))
	changed := 0
	for _, row := range figures["Law"].([]any) {
		if cells := row.([]any); cells[0] == "reference_price" && cells[1] == "corn" && cells[4] == "4.10" {
			cells[4], changed = "9.99", changed+1
		}
	}
	if changed != 1 {
		t.Fatalf("%d rows of the law changed", changed)
	}
	inputs["figures"] = pack(t, figures)
	for _, f := range all["crop_years"].([]any)[0].(map[string]any)["farms"].([]any) {
		for _, c := range f.(map[string]any)["commodities"].([]any) {
			if part := c.(map[string]any); part["commodity"] == "corn" {
				part["programs"].(map[string]any)["PLC"].(map[string]any)["mean"] = 300.25
			}
		}
	}
	changedText, err := json.Marshal(all)
	if err != nil {
		t.Fatal(err)
	}
	return changedText
}

func unpack(t *testing.T, text string) (all map[string]any) {
	t.Helper()
	raw, err := base64.StdEncoding.DecodeString(text)
	if err != nil {
		t.Fatal(err)
	}
	zip, err := gzip.NewReader(bytes.NewReader(raw))
	if err != nil {
		t.Fatal(err)
	}
	plain, err := io.ReadAll(zip)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(plain, &all); err != nil {
		t.Fatal(err)
	}
	return all
}

func pack(t *testing.T, all map[string]any) string {
	t.Helper()
	var out bytes.Buffer
	zip := gzip.NewWriter(&out)
	if err := json.NewEncoder(zip).Encode(all); err != nil {
		t.Fatal(err)
	}
	zip.Close()
	return base64.StdEncoding.EncodeToString(out.Bytes())
}
