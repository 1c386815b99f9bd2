/** Names come from a file: control characters and line breaks in them must not upset a terminal or the table. */
export const oneLine = (text: string): string => text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, " ").trim();
