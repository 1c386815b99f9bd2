export type Look = "day" | "night";

const KEY = "gantline.";

/** How this machine's user likes to look at plans; the first of the choices where nothing was kept or storage is refused. */
export function readPreference<T extends string>(name: string, choices: readonly [T, ...T[]]): T {
  try {
    const kept = localStorage.getItem(KEY + name);
    return choices.find((choice) => choice === kept) ?? choices[0];
  } catch {
    return choices[0];
  }
}

export function writePreference(name: string, value: string): void {
  try {
    localStorage.setItem(KEY + name, value);
  } catch {
    // Nothing rests on it: the choice lasts as long as the page.
  }
}
