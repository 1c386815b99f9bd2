import type { Network } from "@gantline/engine";
import type { MainModule } from "mujoco-js";

/** A network at rest, as a general-purpose physics engine leaves it. */
export interface Settled {
  readonly places: Readonly<Record<string, readonly [number, number, number]>>;
  readonly tensionsN: Readonly<Record<string, number>>;
  /** Largest force that is not in balance at any free node: what its mass and its damping still take up, N. */
  readonly residualN: number;
  readonly steps: number;
}

/** A network built in the physics engine, ready to settle. `dispose` when done. */
export interface Settling {
  /** Starts over from the first guess and steps until the residual is below this, or the steps are used up. */
  readonly settle: (residualN: number, mostSteps: number) => Settled;
  readonly dispose: () => void;
}

export interface SettlingOptions {
  /** Damping over mass, 1/s: the pace at which swings die away. */
  readonly dampingPerS?: number;
  /** Time step times the fastest frequency; above 2 the integration blows up. */
  readonly stepOverFastest?: number;
  /** Time step, s, instead. */
  readonly stepS?: number;
}

/** Steps between two looks at the residual. */
const LOOK_EVERY = 20;

/**
 * Builds a network without sheave loss or rope weight in MuJoCo: each free node is a point mass on three damped slides, each line a
 * spatial tendon through sites at its nodes. One held by length is a spring of EA/L0 that is at rest anywhere from 0 to L0; one held by
 * tension is drawn by a constant force. Every free node must have mass.
 */
export function buildInMujoco(mujoco: MainModule, network: Network, options: SettlingOptions = {}): Settling {
  const { dampingPerS = 1, stepOverFastest = 1 } = options;
  const nodes = Object.entries(network.nodes);
  const lines = Object.entries(network.lines);
  const free = nodes.filter(([, node]) => node.free);
  const id = new Map(nodes.map(([name], i) => [name, `n${i}`]));

  // A node feels each segment that ends on it through the whole stiffness of its line, once for each pass.
  let fastest = 1;
  for (const [name, node] of free) {
    let stiffness = 0;
    for (const [, line] of lines) {
      const ends = line.through.reduce(
        (n, at, i) => n + (at === name ? (i > 0 && i < line.through.length - 1 ? 2 : 1) : 0),
        0,
      );
      stiffness += ((line.axialStiffnessN ?? 0) / (line.lengthM ?? 1)) * ends ** 2 * line.through.length;
    }
    fastest = Math.max(fastest, Math.sqrt(stiffness / node.massKg!));
  }

  const site = (name: string) => `<site site="${id.get(name)}"/>`;
  const slides = (damping: number) =>
    ["1 0 0", "0 1 0", "0 0 1"].map((axis) => `<joint type="slide" axis="${axis}" damping="${damping}"/>`).join("");
  const xml = `<mujoco>
  <option timestep="${options.stepS ?? stepOverFastest / fastest}" integrator="implicitfast" gravity="0 0 -${network.gravityMS2 ?? 9.80665}"/>
  <worldbody>
    ${nodes
      .filter(([, node]) => !node.free)
      .map(([name, node]) => `<site name="${id.get(name)}" pos="${node.position.join(" ")}"/>`)
      .join("\n")}
    ${free
      .map(
        ([name, node]) => `<body pos="${node.position.join(" ")}">${slides(dampingPerS * node.massKg!)}
      <inertial pos="0 0 0" mass="${node.massKg}" diaginertia="1 1 1"/><site name="${id.get(name)}"/></body>`,
      )
      .join("\n")}
  </worldbody>
  <tendon>
    ${lines
      .map(([, line], i) => {
        const spring =
          line.lengthM === undefined
            ? ""
            : ` stiffness="${line.axialStiffnessN! / line.lengthM}" springlength="0 ${line.lengthM}"`;
        return `<spatial name="t${i}"${spring}>${line.through.map(site).join("")}</spatial>`;
      })
      .join("\n")}
  </tendon>
  <actuator>${lines.map(([, line], i) => (line.tensionN === undefined ? "" : `<motor tendon="t${i}"/>`)).join("")}</actuator>
</mujoco>`;
  const files = (mujoco as unknown as { FS: { writeFile: (path: string, text: string) => void } }).FS;
  files.writeFile("/network.xml", xml);
  const model = mujoco.MjModel.loadFromXML("/network.xml")!;
  const data = new mujoco.MjData(model)!;

  const settle = (residualN: number, mostSteps: number): Settled => {
    mujoco.mj_resetData(model, data);
    const applied = data.qfrc_applied as Float64Array;
    for (const [f, [, node]] of free.entries()) for (let i = 0; i < 3; i++) applied[3 * f + i] = node.forceN?.[i] ?? 0;
    const control = data.ctrl as Float64Array;
    let motor = 0;
    for (const [, line] of lines) if (line.tensionN !== undefined) control[motor++] = -line.tensionN;

    let steps = 0;
    let residual = Infinity;
    while (steps < mostSteps && !(residual < residualN)) {
      for (let i = 0; i < LOOK_EVERY; i++) mujoco.mj_step(model, data);
      steps += LOOK_EVERY;
      residual = 0;
      const speed = data.qvel as Float64Array;
      const acceleration = data.qacc as Float64Array;
      for (const [f, [, node]] of free.entries()) {
        const out = [0, 1, 2].map((i) => node.massKg! * (acceleration[3 * f + i]! + dampingPerS * speed[3 * f + i]!));
        residual = Math.max(residual, Math.hypot(...out));
      }
    }
    const moved = data.qpos as Float64Array;
    const length = data.ten_length as Float64Array;
    return {
      places: Object.fromEntries(
        free.map(
          (
            [
              name,
              {
                position: [x, y, z],
              },
            ],
            f,
          ) => [name, [x + moved[3 * f]!, y + moved[3 * f + 1]!, z + moved[3 * f + 2]!] as const],
        ),
      ),
      tensionsN: Object.fromEntries(
        lines.map(([name, line], i) => [
          name,
          line.tensionN ?? (line.axialStiffnessN! / line.lengthM!) * Math.max(0, length[i]! - line.lengthM!),
        ]),
      ),
      residualN: residual,
      steps,
    };
  };
  return {
    settle,
    dispose: () => {
      data.delete();
      model.delete();
    },
  };
}
