/**
 * A text in lines no wider than `mostPx`, broken between words; what does not fit in `mostLines` ends in an ellipsis.
 * A word wider than a line is cut.
 */
export function wrapText(
  text: string,
  mostPx: number,
  mostLines: number,
  widthPx: (text: string) => number,
): readonly string[] {
  const lines: string[] = [];
  let line = "";
  const words = text.split(" ");
  for (const [i, word] of words.entries()) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (widthPx(longer) <= mostPx || line === "") {
      line = longer;
      continue;
    }
    if (lines.length === mostLines - 1) return [...lines, cut(`${line} ${words.slice(i).join(" ")}`, mostPx, widthPx)];
    lines.push(cut(line, mostPx, widthPx));
    line = word;
  }
  return [...lines, cut(line, mostPx, widthPx)];
}

function cut(text: string, mostPx: number, widthPx: (text: string) => number): string {
  if (widthPx(text) <= mostPx) return text;
  let kept = text;
  while (kept.length > 1 && widthPx(`${kept}…`) > mostPx) kept = kept.slice(0, -1).trimEnd();
  return `${kept}…`;
}
