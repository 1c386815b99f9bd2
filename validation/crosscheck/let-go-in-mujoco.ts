import type { LetGoLine, LetGoSystem, Triple } from "@gantline/engine";
import type { MainModule } from "mujoco-js";

/** What a general-purpose physics engine makes of a line that goes. */
export interface Followed {
  /** Highest tension of each line left, N, over all steps. */
  readonly peaksN: Readonly<Record<string, number>>;
  /** Where the load was lowest, below its start, m. */
  readonly dropM: number;
  /** Where all that moves is at the end, m. */
  readonly places: Readonly<Record<string, Triple>>;
}

export interface Following {
  /** Starts over, takes the line away and steps to the end; the model for a step is built once. */
  readonly follow: (stepS: number, durationS: number) => Followed;
  readonly dispose: () => void;
}

/**
 * Builds a system without sheave loss, damping, brakes and stops in MuJoCo: what moves is a point mass on three slides, a
 * place that gives one on a sprung slide, each line a spatial tendon: a spring of EA/L that is at rest anywhere
 * from 0 to L, or drawn by a constant force. Fourth-order Runge–Kutta at a fixed step. The line that goes loses its stiffness or force.
 */
export function buildLetGoInMujoco(mujoco: MainModule, system: LetGoSystem, cut: string): Following {
  const gravity = system.gravityMS2 ?? 9.80665;
  const nodes = Object.entries(system.nodes);
  const lines = Object.entries(system.lines).map(([name, line]) => ({ name, line, ...springOf(system, line) }));
  const moving = nodes.filter(([, node]) => node.massKg !== undefined);
  const id = new Map(nodes.map(([name], i) => [name, `n${i}`]));
  let joints = 0;
  const bodies = moving.map(([name, { positionM, massKg, gives }]) => {
    const first = joints;
    joints += gives ? 1 : 3;
    const slides = gives
      ? `<joint type="slide" axis="${gives.along.join(" ")}" stiffness="${gives.stiffnessNM}" springref="${
          -pullAlong(system, name, gives.along, gravity) / gives.stiffnessNM!
        }"/>`
      : ["1 0 0", "0 1 0", "0 0 1"].map((axis) => `<joint type="slide" axis="${axis}"/>`).join("");
    return {
      name,
      first,
      xml: `<body pos="${positionM.join(" ")}">${slides}
        <inertial pos="0 0 0" mass="${massKg}" diaginertia="1 1 1"/><site name="${id.get(name)}"/></body>`,
    };
  });
  const xml = (stepS: number) => `<mujoco>
  <option timestep="${stepS}" integrator="RK4" gravity="0 0 -${gravity}"/>
  <worldbody>
    ${nodes
      .filter(([, node]) => node.massKg === undefined)
      .map(([name, node]) => `<site name="${id.get(name)}" pos="${node.positionM.join(" ")}"/>`)
      .join("\n")}
    ${bodies.map((b) => b.xml).join("\n")}
  </worldbody>
  <tendon>
    ${lines
      .map(({ line, lengthM, stiffnessNM }, i) => {
        const spring = lengthM === null ? "" : ` stiffness="${stiffnessNM}" springlength="0 ${lengthM}"`;
        return `<spatial name="t${i}"${spring}>${line.through.map((n) => `<site site="${id.get(n)}"/>`).join("")}</spatial>`;
      })
      .join("\n")}
  </tendon>
  <actuator>${lines.map(({ lengthM }, i) => (lengthM === null ? `<motor tendon="t${i}"/>` : "")).join("")}</actuator>
</mujoco>`;
  const files = (mujoco as unknown as { FS: { writeFile: (path: string, text: string) => void } }).FS;
  const disposals: (() => void)[] = [];

  const build = (stepS: number) => {
    files.writeFile("/let-go.xml", xml(stepS));
    const model = mujoco.MjModel.loadFromXML("/let-go.xml")!;
    const data = new mujoco.MjData(model)!;
    disposals.push(() => {
      data.delete();
      model.delete();
    });
    return { model, data };
  };
  const models = new Map<number, ReturnType<typeof build>>();

  const follow = (stepS: number, durationS: number): Followed => {
    const known = models.get(stepS);
    const { model, data } = known ?? build(stepS);
    models.set(stepS, { model, data });
    if (known) mujoco.mj_resetData(model, data);
    const applied = data.qfrc_applied as Float64Array;
    for (const { name, first } of bodies) {
      const force = system.nodes[name]!.forceN;
      if (force && !system.nodes[name]!.gives) for (let c = 0; c < 3; c++) applied[first + c] = force[c]!;
    }
    const stiffness = model.tendon_stiffness as Float64Array;
    const control = data.ctrl as Float64Array;
    let motor = 0;
    for (const [i, { name, lengthM, tensionN }] of lines.entries()) {
      if (lengthM === null) control[motor++] = name === cut ? 0 : -tensionN;
      else if (name === cut) stiffness[i] = 0;
    }
    const peaks = lines.map(() => 0);
    const at = data.qpos as Float64Array;
    const length = data.ten_length as Float64Array;
    const load = bodies.find((b) => b.name === system.load)!;
    let lowest = 0;
    for (let step = 0; step < Math.round(durationS / stepS); step++) {
      mujoco.mj_step(model, data);
      // Lengths are of the start of the step, places of its end; both run over the same instants.
      for (const [i, { lengthM, stiffnessNM, tensionN }] of lines.entries())
        peaks[i] = Math.max(peaks[i]!, lengthM === null ? tensionN : stiffnessNM * (length[i]! - lengthM));
      lowest = Math.min(lowest, at[load.first + 2]!);
    }
    return {
      peaksN: Object.fromEntries(lines.flatMap(({ name }, i) => (name === cut ? [] : [[name, peaks[i]!]]))),
      dropM: -lowest,
      places: Object.fromEntries(
        bodies.map(({ name, first }) => {
          const { positionM, gives } = system.nodes[name]!;
          const per = gives ? 1 / Math.hypot(...gives.along) : 0;
          return [
            name,
            [0, 1, 2].map(
              (c) => positionM[c]! + (gives ? at[first]! * per * gives.along[c]! : at[first + c]!),
            ) as unknown as Triple,
          ];
        }),
      ),
    };
  };
  return {
    follow,
    dispose: () => {
      for (const each of disposals) each();
    },
  };
}

/** A line as a spring; or, with no length, as a constant tension. */
function springOf(system: LetGoSystem, line: LetGoLine) {
  if (line.holding?.kind === "hands")
    return { lengthM: null, stiffnessNM: 0, tensionN: line.holding.tensionN ?? Number.NaN };
  const places = line.through.map((name) => system.nodes[name]!.positionM);
  const way = places.slice(1).reduce((sum, p, i) => sum + Math.hypot(...p.map((x, c) => x - places[i]![c]!)), 0);
  const stiffness = line.axialStiffnessN!;
  const lengthM = line.lengthM ?? way / (1 + line.startTensionN! / stiffness);
  return { lengthM, stiffnessNM: stiffness / lengthM, tensionN: Math.max(0, stiffness * (way / lengthM - 1)) };
}

/** Ropes and weight on a node along a direction, N, before a line goes. */
function pullAlong(system: LetGoSystem, name: string, along: Triple, gravity: number): number {
  const size = Math.hypot(...along);
  let pull = (-system.nodes[name]!.massKg! * gravity * along[2]!) / size;
  for (const line of Object.values(system.lines)) {
    const { tensionN } = springOf(system, line);
    for (const [i, node] of line.through.entries()) {
      if (node !== name) continue;
      for (const other of [line.through[i - 1], line.through[i + 1]]) {
        if (other === undefined) continue;
        const toward = system.nodes[other]!.positionM.map((x, c) => x - system.nodes[name]!.positionM[c]!);
        pull += (tensionN * toward.reduce((sum, x, c) => sum + x * along[c]!, 0)) / (Math.hypot(...toward) * size);
      }
    }
  }
  return pull;
}
