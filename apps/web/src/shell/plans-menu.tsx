import { EXAMPLES } from "@gantline/plan";
import { useRef } from "react";
import { Button, Header, Menu, MenuItem, MenuSection, MenuTrigger, Popover, Separator } from "react-aria-components";
import { useBench, useDesk } from "../state/desk-context.tsx";
import { overlays } from "./overlays.ts";

/** New, open, save, copy, delete; the plans on this machine; the examples. */
export function PlansMenu() {
  const { shelf } = useBench();
  const plans = useDesk((desk) => desk.plans);
  const planId = useDesk((desk) => desk.planId);
  const file = useRef<HTMLInputElement>(null);

  const act = (key: string) => {
    if (key === "new") void shelf.addNew();
    else if (key === "open") file.current?.click();
    else if (key === "save") shelf.saveFile();
    else if (key === "duplicate") void shelf.duplicate();
    else if (key === "delete") void shelf.remove();
    else if (key.startsWith("plan:")) void shelf.open(key.slice(5));
    else {
      const example = EXAMPLES.find((one) => `example:${one.key}` === key);
      if (example !== undefined) void shelf.add(example.plan);
    }
  };

  return (
    <div className="head-cell">
      <MenuTrigger>
        <Button>Plans</Button>
        <Popover className="menu-popover" UNSTABLE_portalContainer={overlays()} placement="bottom end">
          <Menu aria-label="Plans" onAction={(key) => act(String(key))}>
            <MenuItem id="new">New plan</MenuItem>
            <MenuItem id="open">Open a file…</MenuItem>
            <MenuItem id="save">Save as a file</MenuItem>
            <MenuItem id="duplicate">Duplicate this plan</MenuItem>
            <MenuItem id="delete">Delete this plan</MenuItem>
            <Separator />
            <MenuSection>
              <Header>On this machine</Header>
              {plans.map((plan) => (
                <MenuItem key={plan.id} id={`plan:${plan.id}`} textValue={plan.name}>
                  {plan.name}
                  {plan.id === planId && <span className="menu-note"> (open)</span>}
                </MenuItem>
              ))}
            </MenuSection>
            <Separator />
            <MenuSection>
              <Header>Examples, invented</Header>
              {EXAMPLES.map((example) => (
                <MenuItem key={example.key} id={`example:${example.key}`}>
                  {example.title}
                </MenuItem>
              ))}
            </MenuSection>
          </Menu>
        </Popover>
      </MenuTrigger>
      <input
        ref={file}
        type="file"
        accept=".json,application/json"
        aria-label="Open a plan file"
        className="file-input"
        tabIndex={-1}
        onChange={(event) => {
          const [chosen] = event.target.files ?? [];
          event.target.value = "";
          if (chosen !== undefined) void shelf.openFile(chosen);
        }}
      />
    </div>
  );
}
