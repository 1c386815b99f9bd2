import type { Redirect } from "@gantline/plan";
import { usePlan } from "../state/desk-context.tsx";
import { AnchorageField } from "./anchorage-field.tsx";
import { ChoiceField } from "./choice-field.tsx";
import { Fields } from "./fields.tsx";
import { GearField } from "./gear-field.tsx";
import { Group } from "./group.tsx";
import { ListEditor } from "./list-editor.tsx";

/** One main line in the order the rope runs: load, tip, redirects, brake. */
export function MainLineForm({ path }: { readonly path: string }) {
  const points = usePlan((plan) => plan.aerial.device.riggingPoints);
  const anchors = usePlan((plan) => plan.aerial.device.anchors);
  return (
    <>
      <Group title="Rope">
        <Fields at={path} names={["name", "share"]} />
        <GearField path={`${path}.rope`} kind="rope" />
        <Fields at={path} names={["lengthM", "reserveM"]} />
      </Group>
      <Group title="At the load">
        <GearField path={`${path}.loadKnot`} kind="knot" />
        <GearField path={`${path}.loadConnector`} kind="connector" />
      </Group>
      <Group title="At the tip" path={`${path}.tip`}>
        <ChoiceField
          path={`${path}.tip.pointId`}
          options={points.map((point) => ({ value: point.id, word: point.name }))}
        />
        <Fields at={`${path}.tip`} names={["reachM"]} />
        <GearField path={`${path}.tip.sheave`} kind="sheave" />
        <GearField path={`${path}.tip.connector`} kind="connector" />
        <GearField path={`${path}.tip.sling`} kind="sling" none="No sling" />
        <Fields at={`${path}.tip`} names={["hitch", "basketAngleRad"]} />
      </Group>
      <ListEditor<Redirect>
        path={`${path}.redirects`}
        one="redirect"
        title="Redirects, from tip to brake"
        most={6}
        make={(id, items) => ({
          id,
          name: "New redirect",
          anchorage: { on: "vehicle", anchorId: anchors[0]?.id ?? "anchor" },
          sheave: items[0]?.sheave ?? "sheave",
          connector: items[0]?.connector ?? "connector",
          sling: null,
          hitch: "straight",
          basketAngleRad: null,
        })}
      >
        {(at) => (
          <>
            <Fields at={at} names={["name"]} />
            <AnchorageField path={`${at}.anchorage`} />
            <GearField path={`${at}.sheave`} kind="sheave" />
            <GearField path={`${at}.connector`} kind="connector" />
            <GearField path={`${at}.sling`} kind="sling" none="No sling" />
            <Fields at={at} names={["hitch", "basketAngleRad"]} />
          </>
        )}
      </ListEditor>
      <Group title="Brake" path={`${path}.brake`}>
        <AnchorageField path={`${path}.brake.anchorage`} />
        <GearField path={`${path}.brake.device`} kind="brake" />
        <GearField path={`${path}.brake.connector`} kind="connector" />
      </Group>
    </>
  );
}
