import { ToggleButton, ToggleButtonGroup } from "react-aria-components";
import { useActions, useDesk } from "../state/desk-context.tsx";
import { PlansMenu } from "./plans-menu.tsx";

/** Units, look and plans. They come a moment after the drawings, which do not wait for them. */
export default function HeadTools() {
  const actions = useActions();
  const system = useDesk((desk) => desk.system);
  const look = useDesk((desk) => desk.look);
  return (
    <>
      <OneOf what="Units" words={{ metric: "m, kN", imperial: "ft, lbf" }} is={system} choose={actions.setSystem} />
      <OneOf what="Look" words={{ day: "Day", night: "Night" }} is={look} choose={actions.setLook} />
      <PlansMenu />
    </>
  );
}

interface Props<T extends string> {
  readonly what: string;
  readonly words: Readonly<Record<T, string>>;
  readonly is: T;
  readonly choose: (one: T) => void;
}

/** A choice of one, side by side; there is always one chosen. */
function OneOf<T extends string>({ what, words, is, choose }: Props<T>) {
  const ones = Object.keys(words) as T[];
  return (
    <ToggleButtonGroup
      className="head-cell"
      aria-label={what}
      selectionMode="single"
      disallowEmptySelection
      selectedKeys={[is]}
      onSelectionChange={(keys) => choose(ones.find((one) => keys.has(one)) ?? is)}
    >
      {ones.map((one) => (
        <ToggleButton key={one} id={one}>
          {words[one]}
        </ToggleButton>
      ))}
    </ToggleButtonGroup>
  );
}
