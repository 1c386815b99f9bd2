import { TABS } from "./tabs.ts";

/** Holds the place of the forms, folded away, until they are there. */
export function PanelToCome() {
  return (
    <div className="panel" aria-hidden="true">
      <div className="panel-head">
        <div>
          {TABS.map(({ id, word }) => (
            <span key={id} className="tab">
              {word}
            </span>
          ))}
        </div>
        <button type="button" className="panel-fold" disabled>
          Open forms
        </button>
      </div>
    </div>
  );
}
