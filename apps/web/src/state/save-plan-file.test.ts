import { expect, it } from "vitest";
import { fileName } from "./save-plan-file.ts";

it.each([
  ["Mill wall, east side", "Mill wall east side"],
  ["Übung/Süd: 3. Zug", "Übung Süd 3. Zug"],
  ["../../etc/passwd", "etc passwd"],
  ["***", "plan"],
  ["", "plan"],
  ["a".repeat(300), "a".repeat(80)],
])("“%s” is kept as “%s”", (name, file) => {
  expect(fileName(name)).toBe(file);
});
