import { readAmount, writeEntry } from "@gantline/plan";
import { useId, useState } from "react";
import { FieldFrame, wrongness } from "../forms/field-frame.tsx";
import { useSystem } from "../state/desk-context.tsx";
import { useWrite } from "./use-write.ts";

interface Props {
  readonly label: string;
  readonly valueM: number;
  readonly leastM: number;
  readonly mostM: number;
  readonly take: (valueM: number) => void;
}

/** A length that is not part of the plan, as people write it; what cannot be taken stays with its reason. */
export function LengthEntry({ label, valueM, leastM, mostM, take }: Props) {
  const id = useId();
  const system = useSystem();
  const write = useWrite();
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const commit = () => {
    if (typed === null) return;
    const read = readAmount(typed, "length", system);
    const refusal = !read.ok
      ? read.problem
      : read.value === null || read.value < leastM || read.value > mostM
        ? `From ${write(leastM, "length")} to ${write(mostM, "length")}.`
        : null;
    setProblem(refusal);
    if (refusal !== null || !read.ok || read.value === null) return;
    setTyped(null);
    take(read.value);
  };
  return (
    <FieldFrame id={id} path="" label={label} problem={problem}>
      <input
        id={id}
        className="amount figure"
        type="text"
        autoComplete="off"
        value={typed ?? writeEntry(valueM, "length", system)}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => event.key === "Enter" && commit()}
        {...wrongness(id, problem)}
      />
    </FieldFrame>
  );
}
