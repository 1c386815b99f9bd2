import { lazy, useDeferredValue, useEffect } from "react";
import { Ledger } from "./ledger/ledger.tsx";
import { LedgerAnnouncer } from "./ledger/ledger-announcer.tsx";
import { LedgerSummary } from "./ledger/ledger-summary.tsx";
import { DrawingView } from "./sheet/drawing-view.tsx";
import { Caution } from "./shell/caution.tsx";
import { FaultWall } from "./shell/fault-wall.tsx";
import { Header } from "./shell/header.tsx";
import { NoticeBar } from "./shell/notice-bar.tsx";
import { PanelToCome } from "./shell/panel-to-come.tsx";
import { ToFollow } from "./shell/to-follow.tsx";
import { useFileDrop } from "./shell/use-file-drop.ts";
import { useUndoKeys } from "./shell/use-undo-keys.ts";
import { useDesk } from "./state/desk-context.tsx";

const Panel = lazy(() => import("./shell/panel.tsx"));

/** The sheet: head, section and plan side by side, the ledger beside them, the forms below, the caution at the foot. The section comes first; the rest follows as soon as it is there. */
export function App() {
  const look = useDesk((desk) => desk.look);
  const folded = useDesk((desk) => desk.tab === null);
  const rest = useDeferredValue(true, false);
  useUndoKeys();
  useFileDrop();
  useEffect(() => {
    document.documentElement.dataset.look = look;
    document
      .querySelector('meta[name="theme-color"]')
      ?.setAttribute("content", getComputedStyle(document.documentElement).getPropertyValue("--paper").trim());
  }, [look]);
  return (
    <div className={`sheet${folded ? " is-folded" : ""}`}>
      <Header rest={rest} />
      <LedgerSummary />
      <main className="work">
        <NoticeBar />
        <div className="drawings">
          <FaultWall what="The section">
            <DrawingView view="section" />
          </FaultWall>
          <FaultWall what="The plan view">{rest ? <DrawingView view="plan" /> : <div className="drawing" />}</FaultWall>
        </div>
        <aside className="ledger-column" aria-label="Ledger">
          <h2>Ledger</h2>
          <FaultWall what="The ledger">
            {rest && (
              <>
                <LedgerAnnouncer />
                <Ledger />
              </>
            )}
          </FaultWall>
        </aside>
        <ToFollow may={rest} what="The forms" place={<PanelToCome />}>
          <Panel />
        </ToFollow>
      </main>
      <Caution />
      <p id="handle-help" hidden>
        Arrow keys move it by 0.1 m; with Shift by 1 m, with Alt by 1 cm.
      </p>
    </div>
  );
}
