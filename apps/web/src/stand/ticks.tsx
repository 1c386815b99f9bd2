interface Props {
  readonly title: string;
  readonly options: readonly { readonly id: string; readonly word: string }[];
  readonly chosen: readonly string[];
  readonly choose: (ids: readonly string[]) => void;
}

/** Some of several things, at least one of them: the last tick stays. */
export function Ticks({ title, options, chosen, choose }: Props) {
  const toggle = (id: string) => {
    const next = options.map((o) => o.id).filter((one) => chosen.includes(one) !== (one === id));
    if (next.length > 0) choose(next);
  };
  return (
    <fieldset className="ticks is-column">
      <legend>{title}</legend>
      {options.map(({ id, word }) => (
        <label key={id} className="tick">
          <input className="checkbox" type="checkbox" checked={chosen.includes(id)} onChange={() => toggle(id)} />
          {word}
        </label>
      ))}
    </fieldset>
  );
}
