import type { Device } from "@gantline/plan";
import { AmountField } from "./amount-field.tsx";
import { Fields } from "./fields.tsx";
import { Fold, Group } from "./group.tsx";
import { ListEditor } from "./list-editor.tsx";
import { OptionalPart } from "./optional-part.tsx";
import { RowTable } from "./row-table.tsx";

type RatingRow = Device["tipRating"]["rows"][number];
type Section = NonNullable<Device["sections"]>[number];

const AT = "aerial.device";
const NEW_SECTION: Section = { lengthM: 8, massKg: 500, bendingStiffnessNm2: 30e6 };

/** Everything the maker's plate and manual say of the vehicle. */
export function DeviceForm() {
  return (
    <>
      <Group title="Vehicle and ladder">
        <Fields
          at={AT}
          names={[
            "name",
            "source",
            "example",
            "kind",
            "massKg",
            "pivotHeightM",
            "pivotSetbackM",
            "lengthMinM",
            "lengthMaxM",
            "elevationMinRad",
            "elevationMaxRad",
            "beamWidthM",
            "beamDepthM",
          ]}
        />
      </Group>
      <Group title="Limits from the maker">
        <Fields at={AT} names={["maxWindMS", "maxWindSource", "sideRatingN", "sideRatingSource", "maxSlopeRad"]} />
      </Group>
      <Group title="Outline, from the turntable">
        <Fields at={`${AT}.outline`} names={["frontM", "rearM", "leftM", "rightM", "heightM"]} />
      </Group>
      <OptionalPart
        path={`${AT}.platform`}
        title="Platform"
        make={() => ({
          backM: 0.2,
          forwardM: 1.7,
          widthM: 2,
          floorDropM: 0.4,
          railHeightM: 1.1,
          ratedLoadForwardM: 0.9,
        })}
      >
        <div className="group-fields">
          <Fields
            at={`${AT}.platform`}
            names={["backM", "forwardM", "widthM", "floorDropM", "railHeightM", "ratedLoadForwardM"]}
          />
        </div>
      </OptionalPart>
      <Fold title="Tip rating, by elevation and length" path={`${AT}.tipRating`}>
        <Fields at={`${AT}.tipRating`} names={["source"]} />
        <RowTable<RatingRow>
          path={`${AT}.tipRating.rows`}
          title="Rated vertical load at the tip"
          one="band"
          columns={["Elevation from", "to", "Length from", "to ", "Rated load"]}
          most={200}
          least={0}
          make={(rows) =>
            rows.at(-1) ?? {
              elevationMinRad: 0,
              elevationMaxRad: 0.5,
              lengthMinM: 10,
              lengthMaxM: 20,
              ratedTipLoadN: null,
            }
          }
          cells={(row, index) =>
            (["elevationMinRad", "elevationMaxRad", "lengthMinM", "lengthMaxM", "ratedTipLoadN"] as const).map(
              (name) => (
                <AmountField
                  key={name}
                  bare
                  path={`${row}.${name}`}
                  label={`Band ${index + 1}, ${RATING_WORD[name]}`}
                />
              ),
            )
          }
        />
      </Fold>
      <ListEditor<Device["riggingPoints"][number]>
        path={`${AT}.riggingPoints`}
        one="rigging point"
        title="Rigging points"
        most={40}
        make={(id) => ({
          id,
          name: "New rigging point",
          on: "ladder",
          alongM: 0.3,
          lateralM: 0,
          dropM: 0,
          ratingN: null,
          ratingBasis: null,
          ratingSource: "",
          structural: null,
        })}
      >
        {(path) => (
          <Fields
            at={path}
            names={[
              "name",
              "on",
              "structural",
              "alongM",
              "lateralM",
              "dropM",
              "ratingN",
              "ratingBasis",
              "ratingSource",
            ]}
          />
        )}
      </ListEditor>
      <ListEditor<Device["anchors"][number]>
        path={`${AT}.anchors`}
        one="vehicle anchor"
        title="Anchors on the vehicle"
        most={40}
        make={(id) => ({
          id,
          name: "New anchor",
          forwardM: 0,
          rightM: 0,
          upM: 0.7,
          ratingN: null,
          ratingBasis: null,
          ratingSource: "",
        })}
      >
        {(path) => (
          <Fields at={path} names={["name", "forwardM", "rightM", "upM", "ratingN", "ratingBasis", "ratingSource"]} />
        )}
      </ListEditor>
      <ListEditor<Device["jacks"][number]>
        path={`${AT}.jacks`}
        one="jack"
        title="Jacks"
        most={12}
        least={3}
        make={(id) => ({ id, name: "New jack", forwardM: 0, rightM: 2, padAreaM2: null, maxForceN: null })}
      >
        {(path) => <Fields at={path} names={["name", "forwardM", "rightM", "padAreaM2", "maxForceN"]} />}
      </ListEditor>
      <OptionalPart
        path={`${AT}.massCentre`}
        title="Centre of mass, ladder bedded"
        make={() => ({ forwardM: 0, rightM: 0 })}
      >
        <div className="group-fields">
          <Fields at={`${AT}.massCentre`} names={["forwardM", "rightM"]} />
        </div>
      </OptionalPart>
      <OptionalPart path={`${AT}.sections`} title="Ladder sections" make={() => [NEW_SECTION]}>
        <RowTable<Section>
          path={`${AT}.sections`}
          title="Sections, base first"
          one="section"
          columns={["Length", "Mass", "Bending stiffness EI"]}
          most={8}
          least={1}
          make={(all) => all.at(-1) ?? NEW_SECTION}
          cells={(row, index) =>
            (["lengthM", "massKg", "bendingStiffnessNm2"] as const).map((name) => (
              <AmountField
                key={name}
                bare
                path={`${row}.${name}`}
                label={`Section ${index + 1}, ${SECTION_WORD[name]}`}
              />
            ))
          }
        />
      </OptionalPart>
    </>
  );
}

const RATING_WORD = {
  elevationMinRad: "elevation from",
  elevationMaxRad: "elevation to",
  lengthMinM: "length from",
  lengthMaxM: "length to",
  ratedTipLoadN: "rated load",
} as const;
const SECTION_WORD = { lengthM: "length", massKg: "mass", bendingStiffnessNm2: "bending stiffness" } as const;
