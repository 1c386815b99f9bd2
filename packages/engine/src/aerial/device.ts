/** What the engine must know of an aerial device. All in the vehicle frame or along the ladder; SI. */

/** Where a rigging point is fixed. `ladder` points move with the ladder; `platform` points stay level. */
export interface RiggingPoint {
  readonly id: string;
  readonly name: string;
  readonly on: "ladder" | "platform";
  /** On a ladder: distance back from the tip along the ladder, m ≥ 0. On a platform: distance forward of the tip hinge, level, m. */
  readonly alongM: number;
  /** To the right looking out, m. */
  readonly lateralM: number;
  /** Below the beam's centre line (ladder: square to the beam) or below the tip hinge (platform: plumb), m; negative is above. */
  readonly dropM: number;
  readonly ratingN: number | null;
  readonly ratingBasis: "working" | "breaking" | "structural" | null;
  readonly ratingSource: string;
  /** False for a casting or fitting nothing may be hung from. `null`: not known. */
  readonly structural: boolean | null;
}

export interface RatingRow {
  readonly elevationMinRad: number;
  readonly elevationMaxRad: number;
  readonly lengthMinM: number;
  readonly lengthMaxM: number;
  readonly ratedTipLoadN: number | null;
}

export interface LadderSection {
  readonly lengthM: number;
  readonly massKg: number;
  readonly bendingStiffnessNm2: number;
}

/** A point in the vehicle frame: forward along the heading, right, up from the ground at the turntable, from the turntable's centre, m. */
export interface VehiclePoint {
  readonly forwardM: number;
  readonly rightM: number;
  readonly upM: number;
}

export interface AerialDevice {
  readonly kind: "ladder" | "platform";
  readonly pivotHeightM: number;
  /** The pivot lies this far behind the turntable's centre, away from the tip, m; negative is ahead of it. */
  readonly pivotSetbackM: number;
  readonly lengthMinM: number;
  readonly lengthMaxM: number;
  readonly elevationMinRad: number;
  readonly elevationMaxRad: number;
  readonly beamWidthM: number;
  readonly beamDepthM: number;
  readonly platform: PlatformShape | null;
  readonly outline: {
    readonly frontM: number;
    readonly rearM: number;
    readonly leftM: number;
    readonly rightM: number;
    readonly heightM: number;
  };
  readonly jacks: readonly {
    readonly id: string;
    readonly name: string;
    readonly forwardM: number;
    readonly rightM: number;
  }[];
  readonly riggingPoints: readonly RiggingPoint[];
  readonly tipRating: { readonly source: string; readonly rows: readonly RatingRow[] };
  readonly sections: readonly LadderSection[] | null;
  readonly massKg: number | null;
}

/** A self-levelling platform at the tip, measured from the tip hinge: level, forward along the ladder's bearing. */
export interface PlatformShape {
  readonly backM: number;
  readonly forwardM: number;
  readonly widthM: number;
  /** Floor below the hinge, m. */
  readonly floorDropM: number;
  /** Rail above the floor, m. */
  readonly railHeightM: number;
  /** Where the maker's rated load acts, forward of the hinge, m. */
  readonly ratedLoadForwardM: number;
}

/** Where the vehicle stands. */
export interface AerialPlace {
  readonly turntableX: number;
  readonly turntableY: number;
  /** Ground level at the turntable, m. */
  readonly groundZM: number;
  /** Bearing of the vehicle's front, rad. */
  readonly headingRad: number;
}

/** How the ladder is posed. */
export interface AerialPose {
  readonly bearingRad: number;
  readonly elevationRad: number;
  /** Pivot to tip, m. */
  readonly lengthM: number;
}
