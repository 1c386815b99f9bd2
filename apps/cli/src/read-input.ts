import { readFile } from "node:fs/promises";

export type Input = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly sentence: string };

/** The text of a file, or of standard input for `-`; or a plain sentence why there is none. A byte order mark is left out. */
export async function readInput(file: string): Promise<Input> {
  const name = file === "-" ? "Standard input" : `"${file}"`;
  try {
    const bytes = file === "-" ? await readStandardInput() : await readFile(file);
    return { ok: true, text: new TextDecoder("utf-8", { fatal: true }).decode(bytes) };
  } catch (error) {
    return { ok: false, sentence: `${name} cannot be read: ${reasonOf(error)}.` };
  }
}

async function readStandardInput(): Promise<Buffer> {
  const parts: Buffer[] = [];
  for await (const part of process.stdin) parts.push(part as Buffer);
  return Buffer.concat(parts);
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file",
  ENOTDIR: "there is no such file",
  EISDIR: "it is a folder",
  EACCES: "this is not allowed",
  EPERM: "this is not allowed",
  ERR_ENCODING_INVALID_ENCODED_DATA: "it is not UTF-8 text",
};

/** Why a file cannot be read or written, in plain words. */
export function reasonOf(error: unknown): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  return REASONS[code] ?? (code || "the reason is not known");
}
