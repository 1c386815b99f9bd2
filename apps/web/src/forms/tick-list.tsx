import { StageProblemAt } from "./stage-problem.tsx";
import { useField } from "./use-field.ts";

interface Props {
  readonly path: string;
  readonly title: string;
  readonly options: readonly { readonly id: string; readonly word: string }[];
}

/** Which of several things, by their ids: any number of them, kept in the order offered. */
export function TickList({ path, title, options }: Props) {
  const { value, set } = useField(path);
  const chosen = Array.isArray(value) ? (value as readonly string[]) : [];
  const toggle = (id: string) => {
    const next = chosen.includes(id) ? chosen.filter((one) => one !== id) : [...chosen, id];
    set([
      ...options.filter((o) => next.includes(o.id)).map((o) => o.id),
      ...next.filter((one) => !options.some((o) => o.id === one)),
    ]);
  };
  return (
    <fieldset className="ticks" data-path={path}>
      <legend>{title}</legend>
      {options.map(({ id, word }) => (
        <label key={id} className="tick" data-path={chosen.includes(id) ? `${path}[${chosen.indexOf(id)}]` : undefined}>
          <input className="checkbox" type="checkbox" checked={chosen.includes(id)} onChange={() => toggle(id)} />
          {word}
        </label>
      ))}
      {options.length === 0 && <p className="none">None to choose from.</p>}
      <StageProblemAt path={path} />
    </fieldset>
  );
}
