import type { Gear, GearKind } from "@gantline/plan";
import { useId } from "react";
import { AmountField } from "./amount-field.tsx";
import { FieldFrame } from "./field-frame.tsx";
import { Fields } from "./fields.tsx";
import { ListEditor } from "./list-editor.tsx";
import { RowTable } from "./row-table.tsx";
import { useField } from "./use-field.ts";

const KINDS: readonly GearKind[] = ["rope", "connector", "sheave", "sling", "brake", "yoke", "litter", "knot"];
const TITLE: Readonly<Record<GearKind, string>> = {
  rope: "rope",
  connector: "connector",
  sheave: "sheave",
  sling: "sling",
  brake: "brake",
  yoke: "yoke",
  litter: "litter",
  knot: "knot",
};
const STRENGTH = ["standard", "strengthN", "strengthBasis", "massKg"] as const;
const OWN: Readonly<Record<GearKind, readonly string[]>> = {
  rope: [...STRENGTH, "diameterM", "linearMassKgM", "staticStiffnessN", "dynamicStiffnessN"],
  connector: STRENGTH,
  sheave: [...STRENGTH, "efficiency", "diameterM"],
  sling: [...STRENGTH, "lengthM"],
  brake: [...STRENGTH, "slipN", "holdsHandsOff"],
  yoke: STRENGTH,
  litter: STRENGTH,
  knot: ["efficiency", "tailM", "source"],
};

/** The department's gear, by kind and standard. */
export function GearForm() {
  return (
    <ListEditor<Gear>
      path="gear"
      one="piece of gear"
      title="Gear, by kind and standard"
      most={300}
      make={(id) => newGear("connector", id)}
      heading={(gear) => `${gear.name} (${TITLE[gear.kind]}${gear.example ? ", invented" : ""})`}
    >
      {(path, gear) => (
        <>
          <KindPicker path={path} gear={gear} />
          <Fields at={path} names={["name", "example", ...OWN[gear.kind]]} />
          {gear.kind === "rope" && (
            <RowTable<number>
              path={`${path}.lengthsM`}
              title="Ropes in the cache"
              one="rope"
              columns={["Length"]}
              most={60}
              least={0}
              make={(all) => all.at(-1) ?? 60}
              cells={(row, index) => [
                <AmountField key="length" bare path={row} label={`Rope ${index + 1}, length`} quantity="length" />,
              ]}
            />
          )}
        </>
      )}
    </ListEditor>
  );
}

function KindPicker({ path, gear }: { readonly path: string; readonly gear: Gear }) {
  const id = useId();
  const { set } = useField(path);
  return (
    <FieldFrame id={id} path={`${path}.kind`} label="Kind" problem={null}>
      <select
        id={id}
        value={gear.kind}
        onChange={(event) =>
          set({ ...newGear(event.target.value as GearKind, gear.id), name: gear.name, example: gear.example })
        }
      >
        {KINDS.map((kind) => (
          <option key={kind} value={kind}>
            {TITLE[kind]}
          </option>
        ))}
      </select>
    </FieldFrame>
  );
}

/** A new piece of gear, nothing known of its strength. */
function newGear(kind: GearKind, id: string): Gear {
  const common = { id, name: `New ${TITLE[kind]}`, example: false };
  const strength = { ...common, standard: "", strengthN: null, strengthBasis: null, massKg: null };
  switch (kind) {
    case "rope":
      return {
        ...strength,
        kind,
        diameterM: 0.011,
        linearMassKgM: null,
        staticStiffnessN: null,
        dynamicStiffnessN: null,
        lengthsM: [],
      };
    case "sheave":
      return { ...strength, kind, efficiency: null, diameterM: null };
    case "sling":
      return { ...strength, kind, lengthM: 0.6 };
    case "brake":
      return { ...strength, kind, slipN: null, holdsHandsOff: null };
    case "knot":
      return { ...common, kind, efficiency: null, tailM: 1, source: "" };
    default:
      return { ...strength, kind };
  }
}
