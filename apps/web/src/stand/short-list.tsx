import { ASPECT_WORDS } from "./aspect-words.ts";
import { StandCard } from "./stand-card.tsx";
import { useStand, useStandActions } from "./use-stand.ts";

/** The best stands, each swept through the whole evolution: up to four side by side, as drawings and figures. */
export function ShortList() {
  const actions = useStandActions();
  const list = useStand((desk) => desk.list);
  const beside = useStand((desk) => desk.beside);
  if (list === null) return null;
  const named = list.entries.map((entry, index) => ({ number: index + 1, entry }));
  const shown = named.filter(({ number }) => beside.includes(number));
  const toggle = (number: number) =>
    actions.setBeside(beside.includes(number) ? beside.filter((one) => one !== number) : [...beside, number]);
  return (
    <section className="short-list" aria-label="Short list" aria-busy={!list.done}>
      <h3>
        Short list
        {!list.done && <span className="none"> {list.entries.length} swept through the evolution so far</span>}
      </h3>
      {named.length > 1 && (
        <fieldset className="ticks">
          <legend>Side by side, four at most</legend>
          {named.map(({ number, entry }) => (
            <label key={number} className="tick">
              <input
                className="checkbox"
                type="checkbox"
                checked={beside.includes(number)}
                onChange={() => toggle(number)}
              />
              {number}
              {entry.bestBy.length > 0 && `, ${entry.bestBy.map((aspect) => ASPECT_WORDS[aspect]).join(", ")}`}
            </label>
          ))}
        </fieldset>
      )}
      {list.done && named.length === 0 && <p className="none">No place that fits was found.</p>}
      <ol className="stand-cards">
        {shown.map(({ number, entry }) => (
          <StandCard key={number} number={number} entry={entry} beside={shown.map((one) => one.entry)} />
        ))}
      </ol>
    </section>
  );
}
