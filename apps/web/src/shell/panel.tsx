import { lazy, type ReactNode, Suspense, useState } from "react";
import { Tab, TabList, TabPanel, Tabs } from "react-aria-components";
import type { Tab as TabName } from "../state/desk.ts";
import { useActions, useDesk } from "../state/desk-context.tsx";
import { FaultWall } from "./fault-wall.tsx";
import { TABS } from "./tabs.ts";

const SceneForm = lazy(() => import("../forms/scene-form.tsx"));
const StandForm = lazy(() => import("../forms/stand-form.tsx"));
const RigForm = lazy(() => import("../forms/rig-form.tsx"));
const EvolutionForm = lazy(() => import("../evolution/evolution-form.tsx"));
const LetGoForm = lazy(() => import("../let-go/let-go-form.tsx"));
const PolicyForm = lazy(() => import("../forms/policy-form.tsx"));
const LedgerSheet = lazy(() => import("../forces/ledger-sheet.tsx"));

const BODIES: Readonly<Record<TabName, ReactNode>> = {
  scene: <SceneForm />,
  stand: <StandForm />,
  rig: <RigForm />,
  evolution: <EvolutionForm />,
  letGo: <LetGoForm />,
  ledger: <LedgerSheet />,
  policy: <PolicyForm />,
};

/** The forms, one for each part of the work. Folded away, the drawings have the room. */
export default function Panel() {
  const actions = useActions();
  const tab = useDesk((desk) => desk.tab);
  const [last, setLast] = useState<TabName>("stand");
  const [tall, setTall] = useState(false);
  const open = tab !== null;
  const show = (next: TabName) => {
    setLast(next);
    actions.showTab(next);
  };
  const openTab = (key: string | undefined) => {
    const pressed = TABS.find(({ id }) => id === key);
    if (pressed !== undefined) show(pressed.id);
  };
  return (
    <Tabs
      id="panel"
      className={`panel${open ? " is-open" : ""}${open && tall ? " is-tall" : ""}`}
      selectedKey={tab ?? last}
      onSelectionChange={(key) => show(key as TabName)}
    >
      <div className="panel-head">
        {/* The tab chosen last stays chosen while the forms are folded away: pressed again, it opens them. */}
        {/* biome-ignore lint/a11y/useKeyWithClickEvents: the button beside the tabs does the same by keyboard */}
        {/* biome-ignore lint/a11y/noStaticElementInteractions: the tabs inside are what is pressed; the button beside them does the same by keyboard */}
        <div onClick={(event) => openTab((event.target as Element).closest<HTMLElement>("[role=tab]")?.dataset.key)}>
          <TabList aria-label="Parts of the plan">
            {TABS.map(({ id, word }) => (
              <Tab key={id} id={id} className="tab">
                {word}
              </Tab>
            ))}
          </TabList>
        </div>
        {open && (
          <button type="button" className="panel-fold" onClick={() => setTall(!tall)}>
            {tall ? "Lower" : "Taller"}
          </button>
        )}
        <button
          type="button"
          className="panel-fold"
          aria-expanded={open}
          onClick={() => actions.showTab(open ? null : last)}
        >
          {open ? "Fold away" : "Open forms"}
        </button>
      </div>
      {TABS.map(({ id }) => (
        <TabPanel key={id} id={id} className="panel-body" hidden={!open}>
          {open && (
            <FaultWall what="This form">
              <Suspense fallback={<p className="none">Loading…</p>}>{BODIES[id]}</Suspense>
            </FaultWall>
          )}
        </TabPanel>
      ))}
    </Tabs>
  );
}
