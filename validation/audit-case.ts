import {
  allowedOf,
  type Inputs,
  listIn,
  numberIn,
  numbersIn,
  radians,
  type ValidationCase,
} from "./validation-case.ts";

/** How far an expected value is off an identity that it must obey, and how far it may be for its printed digits. */
export interface Misfit {
  readonly what: string;
  readonly misfit: number;
  readonly allowed: number;
}

interface Audited {
  readonly inputs: Inputs;
  /** The expected value of a quantity; undefined where the case expects none. */
  readonly value: (quantity: string) => number | undefined;
  readonly allowed: (quantity: string) => number;
}

/**
 * Holds the expected values of a case to identities of their own. Nothing here comes from the product: plain arithmetic,
 * so that a misprint is found before the product is judged by it.
 */
export function auditCase(wanted: ValidationCase): readonly Misfit[] {
  const audit = AUDITS[wanted.kind];
  if (!audit) throw new Error(`there is no audit for cases of kind "${wanted.kind}"`);
  const of = (quantity: string) => wanted.expected.filter((e) => e.quantity === quantity);
  // Several values may be printed for one quantity: each is audited by turns.
  const turns = Math.max(...wanted.expected.map((e) => of(e.quantity).length));
  return Array.from({ length: turns }, (_, turn) => {
    const entry = (quantity: string) => of(quantity)[Math.min(turn, of(quantity).length - 1)];
    return audit({
      inputs: wanted.inputs,
      value: (quantity) => entry(quantity)?.value,
      allowed: (quantity) => {
        const expected = entry(quantity);
        return expected ? allowedOf(wanted, expected) : 0;
      },
    });
  }).flat();
}

/** Each quantity that is expected against what it must be. */
const against = ({ value, allowed }: Audited, exact: Readonly<Record<string, number>>): readonly Misfit[] =>
  Object.entries(exact).flatMap(([quantity, must]) => {
    const got = value(quantity);
    return got === undefined ? [] : [{ what: quantity, misfit: Math.abs(got - must), allowed: allowed(quantity) }];
  });

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
const number = (inputs: Inputs, name: string, unsaid: number): number =>
  name in inputs ? numberIn(inputs, name) : unsaid;

/** ΣF = 0 where ropes of known direction meet; allowed is what the printed digits of all tensions can leave over. */
function balanceOfForces(
  { value, allowed }: Audited,
  directions: readonly (readonly number[])[],
  load: readonly number[],
): readonly Misfit[] {
  const units = directions.map((d) => d.map((c) => c / Math.hypot(...d)));
  const left = [0, 1, 2].map(
    (axis) => (load[axis] ?? 0) + sum(units.map((u, i) => (value(`T${i + 1}`) ?? Number.NaN) * (u[axis] ?? 0))),
  );
  return [{ what: "ΣF = 0", misfit: Math.hypot(...left), allowed: sum(units.map((_, i) => allowed(`T${i + 1}`))) }];
}

/** ∫ M·m/EI along a cantilever of stretches, M from the loads and m from a unit load at the tip; Simpson, 200 parts a stretch. */
function unitLoadIntegral(pieces: readonly Inputs[], moment: (x: number) => number): number {
  const tip = numberIn(pieces.at(-1) ?? {}, "toM");
  return sum(
    pieces.map((piece) => {
      const from = numberIn(piece, "fromM");
      const step = (numberIn(piece, "toM") - from) / 200;
      const at = (i: number) =>
        (moment(from + i * step) * (tip - from - i * step)) / numberIn(piece, "bendingStiffnessNm2");
      return (
        (step / 3) *
        sum(Array.from({ length: 201 }, (_, i) => at(i) * (i === 0 || i === 200 ? 1 : i % 2 === 1 ? 4 : 2)))
      );
    }),
  );
}

/**
 * How far something worked out of expected values is off what it must be; allowed is what it moves by when each of those
 * values moves by its own tolerance.
 */
function asFarAsDigitsGo(
  what: string,
  { value, allowed }: Audited,
  of: readonly string[],
  work: (values: readonly number[]) => number,
): Misfit {
  const values = of.map((quantity) => value(quantity) ?? Number.NaN);
  const off = work(values);
  const moved = of.map((q, i) => Math.abs(work(values.map((v, j) => (i === j ? v + allowed(q) : v))) - off));
  return { what, misfit: Math.abs(off), allowed: sum(moved) };
}

const AUDITS: Readonly<Record<string, (audited: Audited) => readonly Misfit[]>> = {
  "pulley-load": (a) => {
    const between = radians(
      "deflectionDeg" in a.inputs ? 180 - numberIn(a.inputs, "deflectionDeg") : numberIn(a.inputs, "angleBetweenDeg"),
    );
    const factor = 2 * Math.cos(between / 2);
    return against(a, { factor, load: factor * number(a.inputs, "linePull", 1) });
  },
  "two-legs": (a) => {
    const angle = radians(
      "includedDeg" in a.inputs ? 90 - numberIn(a.inputs, "includedDeg") / 2 : numberIn(a.inputs, "fromHorizontalDeg"),
    );
    // Level parts cancel, plumb parts carry the load: 2 T sin α = W.
    const perLoad = 1 / (2 * Math.sin(angle));
    return against(a, { perLoad, perShare: 2 * perLoad, leg: perLoad * number(a.inputs, "load", 1) });
  },
  "ropes-at-a-node": (a) => {
    const directions = listIn(a.inputs, "ropes").map((rope) => {
      if ("toward" in rope) return numbersIn(rope, "toward");
      const angle = radians(numberIn(rope, "aboveHorizontalDeg"));
      return [numberIn(rope, "side") * Math.cos(angle), 0, Math.sin(angle)];
    });
    const load =
      "massKg" in a.inputs
        ? numberIn(a.inputs, "massKg") * numberIn(a.inputs, "gravityMS2")
        : numberIn(a.inputs, "load");
    return balanceOfForces(a, directions, [0, 0, -load]);
  },
  "springs-at-a-node": (a) => {
    const at = ["x", "y", "z"].map((q) => a.value(q) ?? Number.NaN);
    const anchors = a.inputs.anchorsM as readonly (readonly number[])[];
    const toward = anchors.map((anchor) => anchor.map((c, axis) => c - (at[axis] ?? 0)));
    const [x = 0, y = 0, z = 0] = numbersIn(a.inputs, "forceN");
    const lengths = numbersIn(a.inputs, "lengthM");
    const stiffness = numbersIn(a.inputs, "axialStiffnessN");
    const perMetre = Math.max(...stiffness.map((k, i) => k / (lengths[i] ?? 1)));
    const springs = toward.map((d, i) => {
      const strain = (Math.hypot(...d) - (lengths[i] ?? 0)) / (lengths[i] ?? 1);
      return {
        what: `T${i + 1} = EA (l − L)/L`,
        misfit: Math.abs((stiffness[i] ?? 0) * strain - (a.value(`T${i + 1}`) ?? 0)),
        allowed: a.allowed(`T${i + 1}`) + perMetre * a.allowed("x"),
      };
    });
    return [
      ...springs,
      ...balanceOfForces(a, toward, [x, y, z - numberIn(a.inputs, "massKg") * 9.80665]).map((m) => ({
        ...m,
        allowed: m.allowed + perMetre * a.allowed("x"),
      })),
    ];
  },
  "rope-path": (a) => {
    const e = numberIn(a.inputs, "efficiency");
    const ratio = a.inputs.motion === "raise" ? 1 / e : a.inputs.motion === "lower" ? e : 1;
    const first = numberIn(a.inputs, "massKg") * 9.80665;
    const tensions = [0, 1, 2, 3].map((i) => first * ratio ** i);
    const stretch = sum(
      numbersIn(a.inputs, "unstretchedM").map(
        (l, i) => ((tensions[i] ?? 0) * l) / numberIn(a.inputs, "axialStiffnessN"),
      ),
    );
    return against(a, { stretch, ...Object.fromEntries(tensions.map((t, i) => [`T${i + 1}`, t])) });
  },
  "hanging-stretch": (a) => {
    const { inputs } = a;
    const area = (Math.PI * numberIn(inputs, "diameterM") ** 2) / 4;
    return against(a, {
      stretch:
        (numberIn(inputs, "massKg") * numberIn(inputs, "gravityMS2") * numberIn(inputs, "lengthM")) /
        (numberIn(inputs, "modulusPa") * area),
    });
  },
  "hand-lift": (a) => {
    const weight = numberIn(a.inputs, "massKg") * numberIn(a.inputs, "gravityMS2");
    return against(a, { pull: weight / 4, ceiling: (3 * weight) / 4 });
  },
  capstan: (a) => {
    const wrap =
      "turns" in a.inputs ? 2 * Math.PI * numberIn(a.inputs, "turns") : radians(numberIn(a.inputs, "wrapDeg"));
    const ratio = Math.E ** (numberIn(a.inputs, "friction") * wrap);
    const held = number(a.inputs, "held", 1);
    return against(a, { ratio, low: held / ratio, high: held * ratio });
  },
  "sheave-friction": (a) => {
    const friction = Math.log(1 / numberIn(a.inputs, "efficiency")) / Math.PI;
    return against(a, { friction, passed: Math.exp(-friction * radians(number(a.inputs, "wrapDeg", 180))) });
  },
  tackle: (a) => {
    const e = numberIn(a.inputs, "efficiency");
    // Geometric series, each stage; without loss it is the number of parts.
    const advantage = numbersIn(a.inputs, "stages")
      .map((n) => (e === 1 ? n : (1 - e ** n) / (1 - e)))
      .reduce((x, y) => x * y, 1);
    return against(a, { advantage });
  },
  "lead-line": (a) => {
    // Work lost at each sheave by a factor K: pull = W·K^N (K − 1)/(K^N − 1), and K more for each further sheave.
    const k = "lossFactor" in a.inputs ? numberIn(a.inputs, "lossFactor") : 1 / numberIn(a.inputs, "efficiency");
    const n = numberIn(a.inputs, "parts");
    const factor = ((k ** n * (k - 1)) / (k ** n - 1)) * k ** number(a.inputs, "extraSheaves", 0);
    return against(a, { factor, advantage: 1 / factor, pull: factor * number(a.inputs, "load", 1) });
  },
  "ladder-tip": (a) => {
    const weight = numberIn(a.inputs, "massKg") * 9.80665;
    const elevation = radians(numberIn(a.inputs, "elevationDeg"));
    const e = numberIn(a.inputs, "efficiency");
    const returnTension = a.inputs.motion === "raise" ? weight / e : a.inputs.motion === "lower" ? weight * e : weight;
    // Law of cosines for the angle 90° − φ between the two parts of the rope.
    const resultant = Math.sqrt(weight ** 2 + returnTension ** 2 + 2 * weight * returnTension * Math.sin(elevation));
    const axial = weight * Math.sin(elevation) + returnTension;
    const transverse = weight * Math.cos(elevation);
    const [R = Number.NaN, A = Number.NaN, T = Number.NaN] = ["resultant", "axial", "transverse"].map(a.value);
    const pythagoras = {
      what: "R² = axial² + transverse²",
      misfit: Math.abs(R - Math.hypot(A, T)),
      allowed: 3 * a.allowed("resultant"),
    };
    return [...against(a, { returnTension, resultant, axial, transverse, lateral: 0 }), pythagoras];
  },
  "off-line-return": (a) => {
    const length = numberIn(a.inputs, "lengthM");
    const elevation = radians(numberIn(a.inputs, "elevationDeg"));
    const tipX = length * Math.cos(elevation);
    const tipZ = numberIn(a.inputs, "pivotHeightM") + length * Math.sin(elevation);
    const [x = 0, y = 0, z = 0] = numbersIn(a.inputs, "directionalM");
    const lineLength = Math.hypot(x - tipX, y, z - tipZ);
    return against(a, { tipX, tipZ, lineLength, sideways: (numberIn(a.inputs, "tension") * y) / lineLength });
  },
  "boom-on-hinge": (a) => {
    const boom = radians(numberIn(a.inputs, "boomDeg"));
    const cable = radians(numberIn(a.inputs, "cableDeg"));
    const weights = listIn(a.inputs, "weights").map((w) => [numberIn(w, "atShare"), numberIn(w, "weight")] as const);
    // Moments about the hinge, over the boom's length: Σ w s cos β = T s_c sin(γ − β).
    const pull =
      sum(weights.map(([s, w]) => s * w * Math.cos(boom))) /
      (numberIn(a.inputs, "cableAtShare") * Math.sin(cable - boom));
    const level = -pull * Math.cos(cable);
    const plumb = sum(weights.map(([, w]) => w)) - pull * Math.sin(cable);
    return against(a, {
      cable: pull,
      hinge: Math.hypot(level, plumb),
      hingeDeg: (Math.atan2(plumb, level) * 180) / Math.PI,
    });
  },
  cantilever: (a) => {
    const pieces = listIn(a.inputs, "pieces");
    const tip = numberIn(pieces.at(-1) ?? {}, "toM");
    const elevation = Math.cos(radians(number(a.inputs, "elevationDeg", 0)));
    const load = numberIn(a.inputs, "tipLoadN");
    const compression = number(a.inputs, "tipCompressionN", 0);
    const stiffness = numberIn(pieces[0] ?? {}, "bendingStiffnessNm2");
    if (a.inputs.order === 2) {
      // Even beam under a push that keeps its direction: (Q/Pκ)(tan κL − κL).
      const k = Math.sqrt(compression / stiffness);
      return against(a, { deflection: (load / (compression * k)) * (Math.tan(k * tip) - k * tip) });
    }
    const beyond = (x: number) =>
      sum(
        pieces.map((p) => {
          const from = Math.max(x, numberIn(p, "fromM"));
          const to = numberIn(p, "toM");
          return from < to ? number(p, "weightNPerM", 0) * elevation * (to - from) * ((from + to) / 2 - x) : 0;
        }),
      );
    const moment = (x: number) => load * (tip - x) + beyond(x);
    return against(a, {
      deflection: unitLoadIntegral(pieces, moment),
      rootMoment: moment(0),
      ...(pieces.length === 1 && beyond(0) === 0 ? { slope: (load * tip ** 2) / (2 * stiffness) } : {}),
    });
  },
  "simply-supported": (a) => {
    const { inputs } = a;
    return against(a, {
      sag:
        (5 * numberIn(inputs, "weightNPerM") * numberIn(inputs, "lengthM") ** 4) /
        (384 * numberIn(inputs, "bendingStiffnessNm2")),
    });
  },
  "ladder-reach": (a) => {
    const length = a.value("length") ?? Number.NaN;
    const reach = numberIn(a.inputs, "reach");
    return [
      {
        what: "L cos φ = reach",
        misfit: Math.abs(length * Math.cos(radians(numberIn(a.inputs, "elevationDeg"))) - reach),
        allowed: a.allowed("length"),
      },
    ];
  },
  "wind-force": (a) => {
    // Air of 1.225 kg/m³ (15 °C, sea level) gives 0.6125; the printed constant is rounded up by 0.1 %.
    const pressure = 0.5 * 1.225 * numberIn(a.inputs, "gustMS") ** 2;
    const force = pressure * numberIn(a.inputs, "dragAreaM2");
    const angleDeg =
      "massKg" in a.inputs ? (Math.atan(force / (numberIn(a.inputs, "massKg") * 9.80665)) * 180) / Math.PI : Number.NaN;
    const rounding = (q: string, exact: number) => ({
      what: q,
      misfit: Math.abs((a.value(q) ?? Number.NaN) - exact),
      allowed: a.allowed(q) + 0.001 * exact,
    });
    return (["pressure", "force", "angleDeg"] as const).flatMap((q) =>
      a.value(q) === undefined ? [] : [rounding(q, { pressure, force, angleDeg }[q])],
    );
  },
  "tagline-pull": (a) => {
    const out = radians(numberIn(a.inputs, "ropeFromPlumbDeg"));
    const down = radians(numberIn(a.inputs, "tagBelowHorizontalDeg"));
    const [tag = Number.NaN, rope = Number.NaN] = ["tagline", "rope"].map(a.value);
    const level = tag * Math.cos(down) - rope * Math.sin(out);
    const plumb = rope * Math.cos(out) - tag * Math.sin(down) - 1;
    return [{ what: "ΣF = 0", misfit: Math.hypot(level, plumb), allowed: a.allowed("tagline") + a.allowed("rope") }];
  },
  "power-line": (a) => {
    const kv = numberIn(a.inputs, "voltageKv");
    const inches = 120 + 0.4 * Math.max(0, kv - 50);
    const table = a.value("table");
    const metres = table === undefined ? [] : against(a, { tableM: table * 12 * 0.0254 });
    const larger =
      table === undefined || a.value("required") === undefined
        ? []
        : against(a, { required: Math.max(table, inches / 12) });
    return [...against(a, { fireService: inches / 12 }), ...metres, ...larger];
  },
  catenary: (a) => {
    const [x, z, L, EA, w] = ["levelM", "riseM", "lengthM", "axialStiffnessN", "weightNM"].map((name) =>
      numberIn(a.inputs, name),
    ) as [number, number, number, number, number];
    // Between level ends each carries half the rope.
    const level: Audited =
      a.value("VA") === undefined && z === 0
        ? { ...a, value: (q) => a.value(q) ?? (q === "VA" ? -0.5 * w * L : 0.5 * w * L) }
        : a;
    const spans = ([H = 0, VA = 0, VB = 0]: readonly number[]) =>
      (H * L) / EA + (H / w) * (Math.asinh(VB / H) - Math.asinh(VA / H)) - x;
    const rises = ([H = 0, VA = 0, VB = 0]: readonly number[]) =>
      (((VA + VB) / 2) * L) / EA + (Math.hypot(H, VB) - Math.hypot(H, VA)) / w - z;
    // Level ends: Irvine's equation of height, from the end to the middle.
    const H = a.value("H") ?? Number.NaN;
    const sag = (w * L * L) / (8 * EA) + (Math.hypot(H, 0.5 * w * L) - H) / w;
    const pulls = ["H", "VA", "VB"];
    return [
      asFarAsDigitsGo("level way", level, pulls, spans),
      ...(level === a ? [asFarAsDigitsGo("rise", level, pulls, rises)] : []),
      ...(level === a ? [asFarAsDigitsGo("VB − VA = wL", level, pulls, ([, VA = 0, VB = 0]) => VB - VA - w * L)] : []),
      ...(z === 0 ? against(a, { sag }) : []),
    ];
  },
  "catenary-of-tension": (a) => {
    const [x, w, T] = ["levelM", "weightNM", "tensionN"].map((name) => numberIn(a.inputs, name)) as [
      number,
      number,
      number,
    ];
    return [
      asFarAsDigitsGo("T = H cosh(wx/2H)", a, ["H"], ([h = 0]) => h * Math.cosh((w * x) / (2 * h)) - T),
      asFarAsDigitsGo("sag = (T − H)/w", a, ["H", "sag"], ([h = 0, sag = 0]) => (T - h) / w - sag),
    ];
  },
  "sagging-ropes-at-a-node": (a) => {
    const anchors = a.inputs.anchorsM as readonly (readonly number[])[];
    const weights = numbersIn(a.inputs, "lengthM").map((l) => l * numberIn(a.inputs, "weightNM"));
    const quantities = ["x", "y", "z", ...anchors.flatMap((_, i) => [`T${i + 1}`, `anchor${i + 1}`])];
    // T_B² − T_A² = wL(2 V_A + wL) gives the upward pull V_A on the load; H² = T_A² − V_A².
    const left = (axis: 0 | 1 | 2) => (values: readonly number[]) =>
      sum(
        anchors.map((anchor, i) => {
          const [TA = 0, TB = 0] = values.slice(3 + 2 * i);
          const weight = weights[i] ?? Number.NaN;
          const VA = (TB ** 2 - TA ** 2) / (2 * weight) - weight / 2;
          if (axis === 2) return VA;
          const way = [0, 1].map((c) => (anchor[c] ?? 0) - (values[c] ?? 0));
          return (Math.sqrt(TA ** 2 - VA ** 2) * (way[axis] ?? 0)) / Math.hypot(...way);
        }),
      ) - (axis === 2 ? numberIn(a.inputs, "massKg") * 9.80665 : 0);
    return ([0, 1, 2] as const).map((axis) => {
      const misfit = asFarAsDigitsGo(`ΣF = 0, ${"xyz"[axis]}`, a, quantities, left(axis));
      // What is nothing by symmetry has no digits to be off by.
      return { ...misfit, allowed: misfit.allowed + 1e-9 };
    });
  },
  pendulum: (a) => {
    const g = number(a.inputs, "gravityMS2", 9.80665);
    return [
      asFarAsDigitsGo(
        "T² = 4π² L/g",
        a,
        ["T"],
        ([T = 0]) => T ** 2 - (4 * Math.PI ** 2 * numberIn(a.inputs, "ropeM")) / g,
      ),
    ];
  },
  "swing-pull": (a) => {
    // Of a kilogram on a metre of rope, in units of its weight: v²/gL = 2 (1 − cos θ).
    const speedSquared = 2 * (1 - Math.cos(radians(numberIn(a.inputs, "amplitudeDeg"))));
    return against(a, { factor: 1 + speedSquared });
  },
  "double-pendulum": (a) => {
    const [L, l, M, m] = ["upperM", "lowerM", "upperMassKg", "lowerMassKg"].map((name) => numberIn(a.inputs, name)) as [
      number,
      number,
      number,
      number,
    ];
    const [g, more] = [9.80665, 1 + m / M];
    const squares = (times: readonly number[]) => times.map((T) => ((2 * Math.PI) / T) ** 2) as [number, number];
    return [
      asFarAsDigitsGo("sum of ω²", a, ["slow", "quick"], (times) => sum(squares(times)) - more * (g / L + g / l)),
      asFarAsDigitsGo(
        "product of ω²",
        a,
        ["slow", "quick"],
        (times) => squares(times)[0] * squares(times)[1] - (more * g * g) / (L * l),
      ),
    ];
  },
  "slope-shot": (a) => {
    const shot = (d: number, deg: number) => [d * Math.sin(radians(deg)), d * Math.cos(radians(deg))] as const;
    const d = numberIn(a.inputs, "distance");
    const deg = numberIn(a.inputs, "elevationDeg");
    const [height, horizontal] = shot(d, deg);
    // By differences, half a standard error either way.
    const spread = (of: 0 | 1) => {
      const sd = number(a.inputs, "distanceError", 0);
      const sa = number(a.inputs, "elevationErrorDeg", 0);
      return Math.hypot(
        shot(d + sd / 2, deg)[of] - shot(d - sd / 2, deg)[of],
        shot(d, deg + sa / 2)[of] - shot(d, deg - sa / 2)[of],
      );
    };
    return against(a, { height, horizontal, heightError: spread(0), horizontalError: spread(1) });
  },
  "rope-lets-go": (a) => {
    const [m, EA, L, s] = ["massKg", "axialStiffnessN", "lengthM", "share"].map((name) => numberIn(a.inputs, name)) as [
      number,
      number,
      number,
      number,
    ];
    const [W, k, h, z] = [m * 9.80665, EA / L, number(a.inputs, "slackM", 0), number(a.inputs, "dampingRatio", 0)];
    // The damped cosine about where the line holds the weight.
    const own = Math.sqrt(k / m);
    const damped = own * Math.sqrt(1 - z * z);
    const stretch =
      h > 0
        ? W + Math.sqrt(W * W + 2 * k * W * h)
        : W * (1 + (1 - s) * Math.exp((-Math.PI * z) / Math.sqrt(1 - z * z)));
    const force = (t: number) => {
      const [cos, sin, fade] = [Math.cos(damped * t), Math.sin(damped * t), Math.exp(-z * own * t)];
      const offset = -((1 - s) * W) / k;
      const moved = offset * fade * (cos + ((z * own) / damped) * sin);
      const speed = (-offset * fade * sin * own * own) / damped;
      return W + k * moved + 2 * z * Math.sqrt(k * m) * speed;
    };
    const times = Array.from({ length: 20_001 }, (_, i) => ((i / 20_000) * Math.PI) / damped);
    return against(a, {
      stretch,
      ratio: stretch / W,
      drop: (stretch - s * W) / k + h,
      period: (2 * Math.PI) / own,
      total: Math.max(...times.map(force)),
    });
  },
  "impact-force": (a) => {
    const W = (numberIn(a.inputs, "massKg") * 9.80665) / 1000;
    const right = 2 * W * numberIn(a.inputs, "axialStiffnessKn") * numberIn(a.inputs, "fallFactor");
    return [asFarAsDigitsGo("F (F − 2 W) = 2 W EA f", a, ["totalKn"], ([F = 0]) => F * (F - 2 * W) - right)];
  },
  "brake-slips": (a) => {
    const W = numberIn(a.inputs, "massKg") * 9.80665;
    const F = numberIn(a.inputs, "slipsAtN");
    return [
      asFarAsDigitsGo("W (h + d) = F d", a, ["slip"], ([d = 0]) => W * (numberIn(a.inputs, "fallM") + d) - F * d),
    ];
  },
  "spans-over-a-pulley": (a) => {
    const [x, w, EA] = ["spanM", "weightNM", "axialStiffnessN"].map((name) => numberIn(a.inputs, name)) as [
      number,
      number,
      number,
    ];
    // No loss at the pulley, and two spans alike: half of the rope in each. Irvine's equation of the span, by bisection.
    const L = numberIn(a.inputs, "ropeM") / 2;
    const spanned = (h: number) => (h * L) / EA + ((2 * h) / w) * Math.asinh((w * L) / (2 * h));
    let [low, high] = [1e-3 * w * L, EA];
    for (let i = 0; i < 200; i++) {
      const middle = (low + high) / 2;
      if (spanned(middle) < x) low = middle;
      else high = middle;
    }
    const Tmax = Math.hypot(low, 0.5 * w * L);
    const sag = (w * L * L) / (8 * EA) + (Tmax - low) / w;
    return against(a, { H: low, Tmax, sagLeft: sag, sagRight: sag });
  },
  "braced-frame": (a) => {
    const load = numberIn(a.inputs, "load");
    const value = (quantity: string) => a.value(quantity) ?? Number.NaN;
    // At the corner pushed, and at the other top corner, where no load is: of its three members only none at all can balance without a push.
    return [
      asFarAsDigitsGo("ΣF level at 4", a, ["cable14", "bar24"], ([d = 0, b = 0]) => load - d / Math.SQRT2 - b),
      asFarAsDigitsGo("ΣF plumb at 4", a, ["cable14", "bar34"], ([d = 0, b = 0]) => -d / Math.SQRT2 - b),
      {
        what: "ΣF level at 2",
        misfit: Math.abs(value("bar24") + value("cable23") / Math.SQRT2),
        allowed: 2 * a.allowed("bar24"),
      },
      {
        what: "ΣF plumb at 2",
        misfit: Math.abs(value("bar12") + value("cable23") / Math.SQRT2),
        allowed: 2 * a.allowed("bar12"),
      },
    ];
  },
  "loads-over-a-sheave": (a) => {
    const [M, m, g] = ["heavierKg", "lighterKg", "gravityMS2"].map((name) => numberIn(a.inputs, name)) as [
      number,
      number,
      number,
    ];
    // Newton's second law of each load by itself.
    return [
      asFarAsDigitsGo("T = m (g + a)", a, ["tension", "acceleration"], ([T = 0, up = 0]) => T - m * (g + up)),
      asFarAsDigitsGo("T = M (g − a)", a, ["tension", "acceleration"], ([T = 0, down = 0]) => T - M * (g - down)),
    ];
  },
};
