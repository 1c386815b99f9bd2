import { type Quantity, type Working, writeAmount } from "@gantline/plan";
import { Button, Dialog, DialogTrigger, Heading, Popover } from "react-aria-components";
import { WorkingView } from "../ledger/working-view.tsx";
import { overlays } from "../shell/overlays.ts";
import { useSystem } from "../state/desk-context.tsx";

interface Props {
  readonly value: number | null;
  readonly quantity: Quantity;
  /** What the number is, for the head of its working and for a screen reader. */
  readonly what: string;
  readonly working: Working;
}

/** A number that can be asked why: pressed, it shows how it was worked. */
export function Figure({ value, quantity, what, working }: Props) {
  const system = useSystem();
  const text = writeAmount(value === null ? null : { value, quantity }, system);
  return (
    <DialogTrigger>
      <Button className="askable figure" aria-label={`${what}: ${text}. Why?`}>
        {text}
      </Button>
      <Popover className="why-popover" UNSTABLE_portalContainer={overlays()} placement="bottom">
        <Dialog className="why">
          <Heading slot="title">{what}</Heading>
          <p className="figure why-value">{text}</p>
          <WorkingView working={working} />
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
