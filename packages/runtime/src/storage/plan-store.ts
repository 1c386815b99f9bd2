/** A plan as it lies in storage: the document untouched, whatever its format version. Reading it is `readPlan`'s work. */
export interface StoredPlan {
  readonly id: string;
  /** For the list of plans. */
  readonly name: string;
  /** When it was last written, ms since 1970; the writer's clock. */
  readonly savedAtMs: number;
  readonly document: unknown;
}

export type StoredPlanSummary = Omit<StoredPlan, "document">;

/**
 * Where plans are kept on this machine. Every implementation passes `planStoreAcceptance`.
 * A promise that settles means the data would survive the program being killed at once, where the implementation keeps anything at all.
 */
export interface PlanStore {
  /** Newest first. */
  list(): Promise<readonly StoredPlanSummary[]>;
  /** null where there is none by this id. */
  read(id: string): Promise<StoredPlan | null>;
  /** Adds, or replaces what has the same id. */
  write(plan: StoredPlan): Promise<void>;
  /** Nothing happens where there is none by this id. */
  remove(id: string): Promise<void>;
  /** The plan to open next time; null where none was noted or it is gone. */
  lastOpened(): Promise<string | null>;
  noteOpened(id: string): Promise<void>;
  close(): Promise<void>;
}
